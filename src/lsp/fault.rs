//! A fault of ours in a check, told at the head of the text: a clean file is not to be taken for one that was judged.

use lsp_types::{Diagnostic, DiagnosticSeverity};

/// Where it was, and so what nobody has looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    Declared,
    Predicted,
    Cures,
}

impl Fault {
    pub fn shown(self) -> Diagnostic {
        let (severity, message) = match self {
            Self::Declared => (DiagnosticSeverity::ERROR, "Nothing in this file was judged."),
            Self::Predicted => (
                DiagnosticSeverity::ERROR,
                "Nothing was predicted or planned, and no rule was judged by it: only what the file declares was.",
            ),
            Self::Cures => (DiagnosticSeverity::INFORMATION, "What would mend the findings was not tried."),
        };
        Diagnostic {
            severity: Some(severity),
            source: Some("dwell".to_owned()),
            message: format!("A fault in dwell itself. {message}\nPlease report it."),
            ..Diagnostic::default()
        }
    }

    /// Fails on a text with its mark, as no check should.
    #[cfg(test)]
    pub fn make(self, source: &crate::text::Source) {
        assert!(!source.text.contains(&self.mark()), "as the test wants it");
    }

    #[cfg(test)]
    fn mark(self) -> String {
        format!("a test wants a fault {self:?}")
    }
}

#[cfg(test)]
mod tests {
    use std::time::Duration;

    use lsp_server::Message;
    use lsp_types::{InitializeParams, PublishDiagnosticsParams, Uri};

    use super::Fault;
    use crate::lsp::check::{Outcome, Worker};
    use crate::lsp::documents::Document;
    use crate::lsp::positions::Encoding;
    use crate::lsp::state::State;

    /// What is shown of a text at its head, once nothing of it is under way.
    fn shown(text: &str) -> Vec<(String, usize)> {
        let mut state =
            State::new(InitializeParams::default(), Encoding::Utf16, Worker::start().expect("a thread"));
        let uri: Uri = "untitled:lamb".parse().expect("a URI");
        state.open(Document::open(uri, 1, text.to_owned()));
        let mut told = state.check();
        let mut goes_on = state.documents().all(|open| open.fault.is_none());
        while goes_on {
            let done = state.worker.done.recv_timeout(Duration::from_secs(120)).expect("an outcome");
            goes_on = matches!(done.result, Outcome::Planned(_));
            told.extend(state.take(done));
        }
        let shown = told.into_iter().rev().find_map(|message| match message {
            Message::Notification(told) => {
                serde_json::from_value::<PublishDiagnosticsParams>(told.params).ok()
            }
            _ => None,
        });
        let diagnostics = shown.map(|shown| shown.diagnostics).unwrap_or_default();
        diagnostics.into_iter().map(|one| (one.message, one.range.end.line as usize)).collect()
    }

    /// A cook of which there is nothing to say.
    const CLEAN: &str = "cook \"Bread\"\n  serves 4\n  rules us-food-code\nkit bench is bench\n\
        food bread is bread\n  400 g\n  starts at 20 °C\nphase slice is prep\n  bread on bench\n  takes 5 min\n\
        serve bread\n  at 13:00, up to 15 min late\n";

    #[test]
    fn a_fault_of_ours_is_no_clean_file() {
        assert_eq!(shown(CLEAN), []);
        for fault in [Fault::Declared, Fault::Predicted, Fault::Cures] {
            let found = shown(&format!("{CLEAN}// {}\n", fault.mark()));
            let [(message, 0)] = &found[..] else { panic!("{fault:?} is shown as {found:?}") };
            let not = match fault {
                Fault::Declared => "Nothing in this file was judged",
                Fault::Predicted => "Nothing was predicted",
                Fault::Cures => "was not tried",
            };
            assert!(message.starts_with("A fault in dwell itself") && message.contains(not), "{message}");
        }
    }
}
