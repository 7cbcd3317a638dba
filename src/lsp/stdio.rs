//! Messages over standard input and output.
//!
//! Framed as `lsp-server` does it, but what cannot be read costs one message and not the session: an editor whose texts are
//! in UTF-16 may send half a character, and JSON can write that down though no text can hold it.

use std::borrow::Cow;
use std::io::{self, BufRead, Read};
use std::thread::{self, JoinHandle};

use crossbeam_channel::{Sender, bounded, unbounded};
use lsp_server::{Connection, Message};

/// Messages that are read ahead, so that what was typed in one go is checked in one go.
const AHEAD: usize = 256;
/// The longest file with every byte of it escaped.
const LONGEST: usize = 6 * crate::load::LONGEST_FILE;
const LONGEST_HEADER: u64 = 1024;

/// A connection, and the thread that has written everything once it ends. Sentences about what could not be read go to
/// `complain`.
pub fn connect(complain: fn(&str)) -> (Connection, JoinHandle<()>) {
    // Unbounded, so that a client which reads only after it has said everything is not waited for.
    let (sender, outgoing) = unbounded::<Message>();
    let (incoming, receiver) = bounded(AHEAD);
    thread::spawn(move || {
        if let Err(why) = read(&mut io::stdin().lock(), &incoming, complain) {
            complain(&format!("what the client says cannot be read any more: {why}"));
        }
    });
    let writer = thread::spawn(move || {
        let mut output = io::stdout().lock();
        // A client that does not listen any more is gone, and its end of the input closes too.
        let _ = outgoing.into_iter().try_for_each(|message| message.write(&mut output));
    });
    (Connection { sender, receiver }, writer)
}

/// Reads until the input ends, or nobody takes the messages any more.
///
/// # Errors
/// Those of reading; a header from which nobody could tell where the next message starts.
fn read(input: &mut impl BufRead, to: &Sender<Message>, complain: impl Fn(&str)) -> io::Result<()> {
    while let Some(length) = header(input)? {
        let mut body = vec![0; length];
        input.read_exact(&mut body)?;
        match message(&String::from_utf8_lossy(&body)) {
            Ok(message) => {
                if to.send(message).is_err() {
                    return Ok(());
                }
            }
            Err(why) => complain(&format!("a message of the client was passed over: {why}")),
        }
    }
    Ok(())
}

/// The length of the message that follows; `None` where the input ends.
fn header(input: &mut impl BufRead) -> io::Result<Option<usize>> {
    let wrong = |why: String| io::Error::new(io::ErrorKind::InvalidData, why);
    let mut length = None;
    loop {
        let mut line = Vec::new();
        input.by_ref().take(LONGEST_HEADER).read_until(b'\n', &mut line)?;
        let line = String::from_utf8_lossy(&line);
        match line.trim_end().split_once(':') {
            _ if line.is_empty() => return Ok(None),
            Some((name, value)) if name.eq_ignore_ascii_case("Content-Length") => {
                length = value.trim().parse().ok().filter(|length| *length <= LONGEST);
                length.ok_or_else(|| wrong(format!("{} is no length of a message", value.trim())))?;
            }
            Some(_) => {}
            None if line.trim_end().is_empty() => {
                return length.map(Some).ok_or_else(|| wrong("a message without its length".to_owned()));
            }
            None => return Err(wrong(format!("{} is no header", line.trim_end()))),
        }
    }
}

fn message(json: &str) -> serde_json::Result<Message> {
    serde_json::from_str(&whole_characters(json))
}

/// JSON in which half a character becomes U+FFFD, which is as long in UTF-16.
fn whole_characters(json: &str) -> Cow<'_, str> {
    let unit = |at: usize| {
        let digits = json.get(at..at + 6)?.strip_prefix("\\u")?;
        u16::from_str_radix(digits, 16).ok()
    };
    let is_high = |at| unit(at).is_some_and(|unit| (0xD800..0xDC00).contains(&unit));
    let is_low = |at| unit(at).is_some_and(|unit| (0xDC00..0xE000).contains(&unit));
    let mut whole = Cow::Borrowed(json);
    let mut at = 0;
    while let Some(next) = json.get(at..).and_then(|rest| rest.find('\\')) {
        at += next;
        if is_high(at) && is_low(at + 6) {
            at += 12;
        } else if is_high(at) || is_low(at) {
            whole.to_mut().replace_range(at + 2..at + 6, "FFFD");
            at += 6;
        } else {
            // What is escaped may be a backslash itself.
            at += 1 + json.get(at + 1..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
        }
    }
    whole
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The methods that are read, whether the end was in order, and what was complained of.
    fn methods(input: &str) -> (Vec<String>, bool, usize) {
        let (sender, receiver) = unbounded();
        let complaints = std::cell::Cell::new(0);
        let ended = read(&mut input.as_bytes(), &sender, |_| complaints.set(complaints.get() + 1)).is_ok();
        drop(sender);
        let named = receiver.into_iter().map(|message| match message {
            Message::Notification(told) => told.method,
            other => panic!("{other:?}"),
        });
        (named.collect(), ended, complaints.get())
    }

    fn framed(body: &str) -> String {
        format!("Content-Type: x\r\ncontent-length: {}\r\n\r\n{body}", body.len())
    }

    #[test]
    fn what_cannot_be_read_costs_one_message() {
        let good = framed(r#"{"jsonrpc":"2.0","method":"a","params":{"é":"🍞"}}"#);
        let all = [good.as_str(), &framed("{"), &framed("[1]"), &framed(""), &good].concat();
        assert_eq!(methods(&all), (vec!["a".into(), "a".into()], true, 3));
    }

    #[test]
    fn an_end_without_order_is_told() {
        let good = framed(r#"{"jsonrpc":"2.0","method":"a"}"#);
        let one = || (vec!["a".to_owned()], false, 0);
        for broken in ["\r\n", "nonsense\r\n", "Content-Length: 99999999999999\r\n\r\n"] {
            assert_eq!(methods(&format!("{good}{broken}{good}")), one(), "{broken:?}");
        }
        assert_eq!(methods(&format!("{good}Content-Length: 9\r\n\r\n{{")), one());
        assert_eq!(methods(&good[..20]), (vec![], false, 0));
        assert_eq!(methods(""), (vec![], true, 0));
    }

    #[test]
    fn half_a_character_is_one_that_stands_for_none() {
        for (json, whole) in [
            (r#""a\ud83cb""#, r#""a\uFFFDb""#),
            (r#""\ud83c\ud83c\udf5e\udf5e""#, r#""\uFFFD\ud83c\udf5e\uFFFD""#),
            (r#""\\ud83c\n\u00e9\\""#, r#""\\ud83c\n\u00e9\\""#),
            ("\"\\ud83", "\"\\ud83"),
            ("\\é\\", "\\é\\"),
        ] {
            assert_eq!(whole_characters(json), whole);
        }
    }
}
