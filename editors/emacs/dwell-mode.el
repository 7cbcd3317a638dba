;;; dwell-mode.el --- Long indoor cooks, written down  -*- lexical-binding: t; -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "27.1"))
;; Keywords: languages
;; SPDX-License-Identifier: MIT

;;; Commentary:

;; Colours, indentation and an outline for .dwell files.  What is wrong with a cook, and what it means on the clock, is
;; told by `dwell lsp' through Eglot: M-x eglot.

;;; Code:

(defgroup dwell nil
  "Long indoor cooks, written down."
  :group 'languages)

(defcustom dwell-program "dwell"
  "The program `dwell': its name, if the shell finds it, or its whole path."
  :type 'string)

(defconst dwell-blocks
  '("cook" "crew" "dish" "dwell" "food" "ingredient" "kit" "menu" "phase" "serve")
  "What opens a block.")

(defconst dwell-small-words
  '("after" "all" "and" "at" "before" "by" "each" "ends" "for" "from" "half" "in" "is" "look" "of" "on" "or" "serving"
    "starts" "the" "to" "when" "with")
  "Words that are never a name.")

(defvar dwell-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?/ ". 12" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?- "w" table)
    table)
  "In a name a hyphen is a letter, and // starts a remark.")

(defconst dwell-block-line
  (concat "^[ \t]*\\(" (regexp-opt dwell-blocks) "\\)\\_>\\(?:[ \t]+\\(\\w+\\)\\_>[ \t]+is\\_>\\)?")
  "A line that opens a block, and the name that it gives.")

(defconst dwell-font-lock-keywords
  `((,dwell-block-line (1 font-lock-keyword-face) (2 font-lock-function-name-face nil t))
    ("\\_<becomes[ \t]+\\(\\w+\\)" 1 font-lock-function-name-face)
    (,(concat "\\_<" (regexp-opt dwell-small-words) "\\_>") . font-lock-builtin-face)
    ;; A word that starts a clause, unless it is a name and a place follows.
    ("\\(?:^\\|,\\)[ \t]*\\(\\w+\\)[ \t]+\\(?:in\\|on\\|and\\)\\_>" 1 font-lock-variable-name-face)
    ("\\(?:^\\|,\\)[ \t]*\\([[:alpha:]]\\w*\\)" 1 font-lock-type-face)
    ("\\_<[0-9]+\\(?:[.:/][0-9]+\\)?" . font-lock-constant-face))
  "What is coloured.")

(defun dwell-indent-line ()
  "Put a line that opens a block at the margin, and set any other in."
  (interactive)
  (let ((deep (save-excursion
                (beginning-of-line)
                (if (or (let ((case-fold-search t)) (looking-at dwell-block-line))
                        (not (re-search-backward "[^ \t\n]" nil t)))
                    0
                  2))))
    (if (<= (current-column) (current-indentation))
        (indent-line-to deep)
      (save-excursion (indent-line-to deep)))))

;;;###autoload
(define-derived-mode dwell-mode prog-mode "dwell"
  "For writing cooks."
  (setq-local comment-start "// "
              comment-end ""
              indent-tabs-mode nil
              indent-line-function #'dwell-indent-line
              font-lock-defaults '(dwell-font-lock-keywords nil t)
              outline-regexp dwell-block-line
              imenu-generic-expression
              '((nil "^[ \t]*\\(?:food\\|ingredient\\|kit\\|phase\\)[ \t]+\\(\\w+\\)" 1)
                ("Titles" "^[ \t]*\\(?:cook\\|menu\\)[ \t]*\"\\([^\"]*\\)\"" 1))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.dwell\\'" . dwell-mode))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs (cons 'dwell-mode (lambda (&rest _) (list dwell-program "lsp")))))

(provide 'dwell-mode)
;;; dwell-mode.el ends here
