//! A folder with a cook in it, the program serving it, and a plain HTTP client.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

pub const COOK: &str = "cook \"Apples for the crew\"\n  serves 4\n  rules us-food-code\n\nkit bench is bench\n\n\
    food apples is apple\n  4 pieces of 150 g\n  starts at 18 °C\n\nphase slice is prep\n  apples on bench\n  \
    takes 5 min to 10 min\n\nserve apples\n  at 13:00, up to 15 min late\n";

/// The program on the desk of one file; ended with the value.
pub struct Desk {
    served: Child,
    pub folder: tempfile::TempDir,
    pub address: String,
    pub port: u16,
    /// The path of the address, with a `/` at both ends.
    pub path: String,
}

/// What came back.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    pub head: String,
    pub body: String,
}

impl Desk {
    pub fn of(text: impl AsRef<[u8]>) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("apples.dwell");
        std::fs::write(&file, text).expect("the file");
        let mut served = command(&file).stdout(Stdio::piped()).spawn().expect("dwell runs");
        let mut address = String::new();
        BufReader::new(served.stdout.take().expect("its output"))
            .read_line(&mut address)
            .expect("an address");
        let address = address.trim().to_owned();
        let rest = address.strip_prefix("http://127.0.0.1:").expect("the loopback address");
        let (port, path) = rest.split_once('/').expect("a path");
        let (port, path) = (port.parse().expect("a port"), format!("/{path}"));
        Self { served, folder, address, port, path }
    }

    pub fn file(&self) -> PathBuf {
        self.folder.path().join("apples.dwell")
    }

    pub fn read(&self) -> Vec<u8> {
        std::fs::read(self.file()).expect("the file")
    }

    /// As the page itself would ask.
    pub fn ask(&self, method: &str, what: &str, body: &[u8]) -> Answer {
        let origin = format!("http://127.0.0.1:{}", self.port);
        let target = format!("{}{what}", self.path);
        self.send(method, &target, &[("Origin", &origin)], body)
    }

    pub fn send(&self, method: &str, target: &str, headers: &[(&str, &str)], body: &[u8]) -> Answer {
        let mut all = format!("{method} {target} HTTP/1.1\r\nConnection: close\r\n");
        if headers.iter().all(|(name, _)| *name != "Host") {
            all += &format!("Host: 127.0.0.1:{}\r\n", self.port);
        }
        for (name, value) in headers {
            all += &format!("{name}: {value}\r\n");
        }
        all += &format!("Content-Length: {}\r\n\r\n", body.len());
        let mut bytes = all.into_bytes();
        bytes.extend_from_slice(body);
        self.raw(&bytes)
    }

    /// Whatever bytes; an answer that is none has the status 0.
    pub fn raw(&self, bytes: &[u8]) -> Answer {
        let mut stream = TcpStream::connect(("127.0.0.1", self.port)).expect("it listens");
        stream.set_read_timeout(Some(Duration::from_secs(60))).expect("a timeout");
        // It may hang up before it has heard all of it.
        let _ = stream.write_all(bytes);
        let _ = stream.shutdown(std::net::Shutdown::Write);
        let mut answer = Vec::new();
        let _ = stream.read_to_end(&mut answer);
        let answer = String::from_utf8_lossy(&answer).into_owned();
        let (head, body) = answer.split_once("\r\n\r\n").unwrap_or((&answer, ""));
        let status = head.split(' ').nth(1).and_then(|status| status.parse().ok()).unwrap_or(0);
        Answer { status, head: head.to_owned(), body: body.to_owned() }
    }

    /// The text and the mark, as the page reads them.
    pub fn text(&self) -> (String, String) {
        let answer = self.ask("GET", "text", b"").json();
        let part = |name: &str| answer[name].as_str().expect("a text").to_owned();
        (part("text"), part("mark"))
    }

    pub fn save(&self, text: &str, mark: &str) -> Answer {
        self.ask("POST", &format!("save?mark={mark}"), text.as_bytes())
    }
}

impl Answer {
    pub fn json(&self) -> serde_json::Value {
        assert_eq!(self.status, 200, "{self:?}");
        serde_json::from_str(&self.body).unwrap_or_else(|why| panic!("{why}: {self:?}"))
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = self.served.kill();
        let _ = self.served.wait();
    }
}

pub fn command(file: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_dwell"));
    command.arg("desk").arg(file);
    command
}
