//! Who is answered: whoever knows the address with the token in it, and only from the page itself.
//!
//! The desk listens on the loopback address, which every program and every user of the machine can reach, and so can
//! every page that is open in the browser. A page elsewhere does not know the token; one that were told it would still
//! send its own `Origin`; and a name that somebody points to this machine is not a `Host` of ours.

/// What a request says of itself.
#[derive(Debug, Clone, Copy)]
pub struct Request<'r> {
    pub method: &'r str,
    /// As it was sent: path and query.
    pub target: &'r str,
    pub host: Option<&'r str>,
    pub origin: Option<&'r str>,
    /// `Sec-Fetch-Site`, where the browser sends it (W3C Fetch Metadata).
    pub site: Option<&'r str>,
}

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Route {
    Page,
    Style,
    /// What works the page.
    Script,
    /// What of it only shows.
    Show,
    /// The text as it is in the file.
    Text,
    /// The long text of a finding.
    Explain(String),
    /// A sheet that was drawn before.
    Sheet(String),
    Findings,
    Views,
    LaidOut,
    /// The mark that the file had when the page read it.
    Save(String),
    SaveCopy,
}

/// Why there is no answer, as an HTTP status.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// Not from the page.
    Foreign,
    /// There is no such thing here; that also is said to whoever does not know the token.
    Unknown,
    /// There is, but it is asked for in another way.
    Method,
}

/// Where the desk stands.
#[derive(Debug, Clone)]
pub struct Guard {
    /// Our names. A browser leaves out the port that HTTP has anyway.
    hosts: Vec<String>,
    token: String,
}

impl Guard {
    pub fn new(port: u16, token: String) -> Self {
        let names = ["127.0.0.1", "localhost"];
        let mut hosts: Vec<String> = names.iter().map(|name| format!("{name}:{port}")).collect();
        if port == 80 {
            hosts.extend(names.map(str::to_owned));
        }
        Self { hosts, token }
    }

    /// The address to open.
    pub fn address(&self) -> String {
        format!("http://{}/{}/", self.hosts[0], self.token)
    }

    /// What is asked for, if whoever asks may have it.
    ///
    /// # Errors
    /// Why not.
    pub fn admit(&self, request: Request<'_>) -> Result<Route, Refusal> {
        let ours = |host: &str| self.hosts.iter().any(|own| host.eq_ignore_ascii_case(own));
        if !request.host.is_some_and(ours) {
            return Err(Refusal::Foreign);
        }
        let (path, query) = request.target.split_once('?').unwrap_or((request.target, ""));
        let path = path.strip_prefix('/').ok_or(Refusal::Unknown)?;
        let (token, rest) = path.split_once('/').ok_or(Refusal::Unknown)?;
        if !same(token, &self.token) {
            return Err(Refusal::Unknown);
        }
        let writes = match request.method {
            "GET" => false,
            "POST" => true,
            _ => return Err(Refusal::Method),
        };
        let from_us = |origin: &str| origin.strip_prefix("http://").is_some_and(ours);
        let origin = match request.origin {
            Some(origin) => from_us(origin),
            // A browser names the origin of whatever it posts.
            None => !writes,
        };
        // `none` is somebody who typed the address or followed no link.
        let site = match request.site {
            None | Some("same-origin") => true,
            Some("none") => !writes,
            Some(_) => false,
        };
        if !origin || !site {
            return Err(Refusal::Foreign);
        }
        route(writes, rest, query)
    }
}

fn route(writes: bool, rest: &str, query: &str) -> Result<Route, Refusal> {
    let simple =
        |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-');
    let (wants_write, route) = match rest.split_once('/') {
        Some(("explain", code)) if simple(code) => (false, Route::Explain(code.to_owned())),
        Some(("sheet", digest)) if simple(digest) => (false, Route::Sheet(digest.to_owned())),
        Some(_) => return Err(Refusal::Unknown),
        None => match rest {
            "" => (false, Route::Page),
            "desk.css" => (false, Route::Style),
            "desk.js" => (false, Route::Script),
            "show.js" => (false, Route::Show),
            "text" => (false, Route::Text),
            "findings" => (true, Route::Findings),
            "views" => (true, Route::Views),
            "laid-out" => (true, Route::LaidOut),
            "copy" => (true, Route::SaveCopy),
            "save" => {
                let mark = query.strip_prefix("mark=").filter(|mark| simple(mark)).ok_or(Refusal::Unknown)?;
                (true, Route::Save(mark.to_owned()))
            }
            _ => return Err(Refusal::Unknown),
        },
    };
    if writes == wants_write { Ok(route) } else { Err(Refusal::Method) }
}

/// Takes as long for a wrong token as for the right one.
fn same(typed: &str, token: &str) -> bool {
    let differs = typed.bytes().zip(token.bytes()).fold(0, |all, (a, b)| all | (a ^ b));
    typed.len() == token.len() && differs == 0
}
