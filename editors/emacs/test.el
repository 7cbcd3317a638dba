;;; test.el --- What dwell-mode does with a text  -*- lexical-binding: t; -*-

;;; Code:

(require 'dwell-mode)
(require 'ert)
(require 'imenu)

(defmacro dwell-test-with (text &rest body)
  "Run BODY in a buffer with TEXT in dwell-mode."
  (declare (indent 1))
  `(with-temp-buffer
     (insert ,text)
     (dwell-mode)
     (font-lock-ensure)
     (goto-char (point-min))
     ,@body))

(defun dwell-test-face (word)
  "The face of the first letter of the next WORD."
  (search-forward word)
  (get-text-property (match-beginning 0) 'face))

(ert-deftest dwell-file-names ()
  (should (eq (assoc-default "supper.dwell" auto-mode-alist #'string-match) 'dwell-mode)))

(ert-deftest dwell-colours ()
  (dwell-test-with "PHASE roast is cook // phase\n  salt in oven\n  note \"for 5 h\", for 5 h\n"
    (should (eq (dwell-test-face "PHASE") 'font-lock-keyword-face))
    (should (eq (dwell-test-face "roast") 'font-lock-function-name-face))
    (should (eq (dwell-test-face "is") 'font-lock-builtin-face))
    (should (memq (dwell-test-face "phase") '(font-lock-comment-face font-lock-comment-delimiter-face)))
    (should (eq (dwell-test-face "salt") 'font-lock-variable-name-face))
    (should (eq (dwell-test-face "note") 'font-lock-type-face))
    (should (eq (dwell-test-face "for 5 h") 'font-lock-string-face))
    (should (eq (dwell-test-face "for") 'font-lock-builtin-face))
    (should (eq (dwell-test-face "5") 'font-lock-constant-face))))

(ert-deftest dwell-indents ()
  (dwell-test-with "phase roast is cook\nlamb in oven\n\n   serve lamb\nat 18:30\n"
    (indent-region (point-min) (point-max))
    (should (equal (buffer-string) "phase roast is cook\n  lamb in oven\n\nserve lamb\n  at 18:30\n"))))

(ert-deftest dwell-outline ()
  (dwell-test-with "cook \"Lamb\"\nkit oven is oven\nphase roast is cook\n"
    (let ((names (mapcar #'car (funcall imenu-create-index-function))))
      (should (equal names '("Titles" "oven" "roast"))))))

;;; test.el ends here
