//! Listens, asks the guard, answers.

use std::collections::VecDeque;
use std::io::Read;
use std::net::TcpListener;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Mutex, PoisonError};
use std::thread;

use serde::Serialize;
use tiny_http::{Header, Request, Response};

use super::file::{DeskFile, Saved, mark};
use crate::cli::Unusable;
use crate::compile::{Options, STACK};
use crate::desk::guard::{self, Guard, Refusal, Route};
use crate::desk::{PAGE, SCRIPT, SHOW, STYLE, answers};
use crate::load::LONGEST_FILE;
use crate::stop::{self, Stop};
use crate::timing;

const THREADS: usize = 6;
/// So many plans are worked on at once. A further one ends the eldest: its page has most likely been closed, or has another
/// text by now. The other threads are left for what is quick, a save above all.
const PLANS: usize = 2;
/// Sheets that are kept for whoever has drawn them: as many as pages are likely to be open.
const SHEETS: usize = 8;

/// Nothing from elsewhere, and nobody may put the desk into a frame.
const PAGE_POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; \
     img-src blob: data:; frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
/// A sheet runs nothing, and stands in a frame of the desk.
const SHEET_POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; \
     frame-ancestors 'self'";

pub struct Server {
    http: tiny_http::Server,
    guard: Guard,
    file: DeskFile,
    sheets: Mutex<VecDeque<(String, String)>>,
    /// The plans that are worked on, the eldest first.
    plans: Mutex<VecDeque<Stop>>,
}

/// What goes back.
struct Answer {
    status: u16,
    kind: &'static str,
    policy: &'static str,
    body: Vec<u8>,
}

impl Answer {
    fn new(kind: &'static str, body: impl Into<Vec<u8>>) -> Self {
        Self { status: 200, kind, policy: PAGE_POLICY, body: body.into() }
    }

    fn words(status: u16, body: impl Into<Vec<u8>>) -> Self {
        Self { status, ..Self::new("text/plain; charset=utf-8", body) }
    }

    fn json(value: &impl Serialize) -> Self {
        Self::new("application/json", answers::json(value))
    }
}

#[derive(Serialize)]
struct FileText {
    name: String,
    text: String,
    mark: String,
}

#[derive(Serialize)]
struct Marked {
    mark: String,
}

#[derive(Serialize)]
struct Named {
    name: String,
}

impl Server {
    /// # Errors
    /// Why nothing can be served there.
    pub fn new(listener: TcpListener, guard: Guard, file: DeskFile) -> Result<Self, Unusable> {
        let http = tiny_http::Server::from_listener(listener, None)
            .map_err(|why| format!("the desk could not be set up: {why}"))?;
        Ok(Self { http, guard, file, sheets: Mutex::default(), plans: Mutex::default() })
    }

    /// Answers until the program is ended.
    ///
    /// # Errors
    /// The machine gives out no thread.
    pub fn run(&self) -> std::io::Result<()> {
        thread::scope(|scope| {
            for _ in 0..THREADS {
                let answer = || {
                    while let Ok(request) = self.http.recv() {
                        self.answer(request);
                    }
                };
                thread::Builder::new().stack_size(STACK).spawn_scoped(scope, answer)?;
            }
            Ok(())
        })
    }

    fn answer(&self, mut request: Request) {
        // A page that is answered wrongly once must be answered rightly the next time.
        let answer = catch_unwind(AssertUnwindSafe(|| self.answer_to(&mut request))).unwrap_or_else(|_| {
            Answer::words(
                500,
                "Something went wrong in dwell itself. What stands here is still here; please report it.",
            )
        });
        let mut response = Response::from_data(answer.body).with_status_code(answer.status);
        let headers = [
            ("Content-Type", answer.kind),
            ("Content-Security-Policy", answer.policy),
            ("Cache-Control", "no-store"),
            ("Referrer-Policy", "no-referrer"),
            ("X-Content-Type-Options", "nosniff"),
            ("Cross-Origin-Resource-Policy", "same-origin"),
            ("Cross-Origin-Opener-Policy", "same-origin"),
        ];
        for (name, value) in headers {
            if let Ok(header) = Header::from_bytes(name, value) {
                response.add_header(header);
            }
        }
        // A page that was closed meanwhile hears nothing, and needs nothing.
        let _ = request.respond(response);
    }

    fn answer_to(&self, request: &mut Request) -> Answer {
        let header = |name: &'static str| {
            let found = request.headers().iter().find(|header| header.field.equiv(name));
            found.map(|header| header.value.as_str())
        };
        let asked = guard::Request {
            method: request.method().as_str(),
            target: request.url(),
            host: header("Host"),
            origin: header("Origin"),
            site: header("Sec-Fetch-Site"),
        };
        match self.guard.admit(asked) {
            Ok(route) => self.route(route, request),
            Err(Refusal::Foreign) => Answer::words(403, "Only the page of this desk is answered here."),
            Err(Refusal::Unknown) => Answer::words(404, "There is nothing here."),
            Err(Refusal::Method) => Answer::words(405, "It is not asked for in this way."),
        }
    }

    fn route(&self, route: Route, request: &mut Request) -> Answer {
        let told = match route {
            Route::Page => Ok(Answer::new("text/html; charset=utf-8", PAGE)),
            Route::Style => Ok(Answer::new("text/css; charset=utf-8", STYLE)),
            Route::Show => Ok(Answer::new("text/javascript; charset=utf-8", SHOW)),
            Route::Script => Ok(Answer::new("text/javascript; charset=utf-8", SCRIPT)),
            Route::Text => self.text(),
            Route::Explain(code) => Ok(match answers::explanation(&code) {
                Some(text) => Answer::words(200, text),
                None => Answer::words(404, "There is no finding of this code."),
            }),
            Route::Sheet(digest) => Ok(self.sheet(&digest)),
            Route::Findings => body(request).map(|text| {
                let options = Options { declared_only: true, ..Options::default() };
                Answer::json(&answers::findings(&self.file.compile(text, &options)))
            }),
            Route::Views => body(request).map(|text| self.views(text)),
            Route::LaidOut => body(request).map(|text| Answer::words(200, answers::laid_out(&text))),
            Route::Save(mark) => body(request).and_then(|text| self.save(&text, &mark)),
            Route::SaveCopy => body(request).and_then(|text| {
                let name = self.file.save_copy(&text)?;
                Ok(Answer::json(&Named { name }))
            }),
        };
        told.unwrap_or_else(|Unusable(why)| Answer::words(422, format!("{why}.")))
    }

    fn text(&self) -> Result<Answer, Unusable> {
        let read = self.file.read()?;
        Ok(Answer::json(&FileText { name: self.file.name(), text: read.text, mark: read.mark }))
    }

    fn save(&self, text: &str, mark: &str) -> Result<Answer, Unusable> {
        Ok(match self.file.save(text, mark)? {
            Saved::Written(mark) => Answer::json(&Marked { mark }),
            Saved::Changed => Answer::words(
                409,
                format!(
                    "{} has been changed by somebody else since it was read here, so it was not written over.",
                    self.file.name()
                ),
            ),
        })
    }

    fn views(&self, text: String) -> Answer {
        let timing = timing::Options { outlook: true, ..timing::Options::default() };
        let options = Options { cures: true, timing, ..Options::default() };
        let stop = Stop::default();
        {
            let mut plans = self.plans.lock().unwrap_or_else(PoisonError::into_inner);
            plans.push_back(stop.clone());
            while plans.len() > PLANS {
                plans.pop_front().iter().for_each(Stop::ask);
            }
        }
        let compiled = stop::unless_asked(&stop, || self.file.compile(text, &options));
        self.plans.lock().unwrap_or_else(PoisonError::into_inner).retain(|other| !other.is(&stop));
        let Some(compiled) = compiled else {
            return Answer::words(503, "Another page has asked for its plan since.");
        };
        let (views, sheet) = answers::views(&compiled, |page| mark(page.as_bytes()));
        if let (Some(name), Some(page)) = (&views.sheet, sheet) {
            let mut sheets = self.sheets.lock().unwrap_or_else(PoisonError::into_inner);
            sheets.retain(|(known, _)| known != name);
            sheets.push_back((name.clone(), page));
            while sheets.len() > SHEETS {
                sheets.pop_front();
            }
        }
        Answer::json(&views)
    }

    fn sheet(&self, digest: &str) -> Answer {
        let sheets = self.sheets.lock().unwrap_or_else(PoisonError::into_inner);
        match sheets.iter().find(|(known, _)| known == digest) {
            Some((_, page)) => {
                Answer { policy: SHEET_POLICY, ..Answer::new("text/html; charset=utf-8", page.as_bytes()) }
            }
            None => {
                Answer::words(404, "This sheet is not kept any more; it is drawn anew at the next change.")
            }
        }
    }
}

/// The text that was sent.
fn body(request: &mut Request) -> Result<String, Unusable> {
    let mut bytes = Vec::new();
    request.as_reader().take(LONGEST_FILE as u64 + 1).read_to_end(&mut bytes)?;
    if bytes.len() > LONGEST_FILE {
        return Err(Unusable("this text is 10 MiB long or longer".into()));
    }
    String::from_utf8(bytes).map_err(|_| Unusable("this is not plain text in UTF-8".into()))
}
