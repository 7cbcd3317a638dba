;;; eglot-test.el --- A session of Eglot with `dwell lsp'  -*- lexical-binding: t; -*-

;; COOK names a file with a name in it that is misspelt, DWELL the program.

;;; Code:

(require 'dwell-mode)
(require 'eglot)
(require 'ert)

(defun dwell-test-wait (holds)
  "Wait until HOLDS says so, for half a minute at most; its last answer."
  (let ((end (+ (float-time) 30)) answer)
    (while (and (not (setq answer (funcall holds))) (< (float-time) end))
      (accept-process-output nil 0.1))
    answer))

(ert-deftest dwell-eglot ()
  (let ((dwell-program (getenv "DWELL"))
        (eglot-sync-connect 30)
        (eglot-autoreconnect nil))
    (with-current-buffer (find-file-noselect (getenv "COOK"))
      (apply #'eglot (eglot--guess-contact))
      (should (eglot-current-server))
      (flymake-start)
      (let ((found (dwell-test-wait #'flymake-diagnostics)))
        (should found)
        (should (string-match-p "name-unknown" (mapconcat #'flymake-diagnostic-text found "\n"))))
      (let ((text (buffer-string)))
        (goto-char (point-min))
        (search-forward "thickness")
        (insert "   ")
        (eglot-format-buffer)
        (should (equal (buffer-string) text)))
      (set-buffer-modified-p nil)
      (eglot-shutdown (eglot-current-server)))))

;;; eglot-test.el ends here
