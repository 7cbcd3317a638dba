//! The language server: what an editor says over the language-server protocol, and what it is told.
//!
//! One thread takes the messages in their order, checks what files declare and answers; another, which gives up as soon
//! as nobody wants its result, predicts and plans. Nothing is kept from one text to the next: each is compiled afresh.

mod changes;
mod check;
mod documents;
mod fault;
mod help;
mod names;
mod outline;
mod overlay;
mod positions;
mod publish;
mod requests;
mod state;
mod stdio;

pub use stdio::connect;

use crossbeam_channel::{TryRecvError, select};
use lsp_server::{Connection, ErrorCode, Message, Notification, Request, RequestId, Response};
use lsp_types::notification as tell;
use lsp_types::request::{self as ask, Request as _};
use lsp_types::{InitializeParams, InitializeResult, ServerInfo};

use check::Worker;
use documents::{Document, path_of};
use positions::Encoding;
use state::State;

/// How a session ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// As the protocol wants it: after a shutdown.
    InOrder,
    /// Told to exit without one, or the client is gone.
    Abruptly,
}

/// Serves one client until it leaves.
///
/// # Errors
/// The machine gives out no thread to check on.
pub fn run(connection: &Connection) -> std::io::Result<Ended> {
    let worker = Worker::start()?;
    let Some((id, params)) = first(connection) else { return Ok(Ended::Abruptly) };
    let general = params.capabilities.general.as_ref();
    let encoding = Encoding::agreed(general.and_then(|general| general.position_encodings.as_deref()));
    let result = InitializeResult {
        capabilities: requests::capabilities(encoding),
        server_info: Some(ServerInfo {
            name: "dwell".to_owned(),
            version: Some(env!("CARGO_PKG_VERSION").to_owned()),
        }),
    };
    if connection.sender.send(Response::new_ok(id, result).into()).is_err() {
        return Ok(Ended::Abruptly);
    }
    Ok(serve(connection, State::new(params, encoding, worker)).unwrap_or(Ended::Abruptly))
}

/// The request that has to come first, after turning others away; `None` if the client leaves before.
fn first(connection: &Connection) -> Option<(RequestId, InitializeParams)> {
    for message in &connection.receiver {
        let refusal = match message {
            Message::Request(request) if request.method == ask::Initialize::METHOD => {
                match serde_json::from_value(request.params) {
                    Ok(params) => return Some((request.id, params)),
                    Err(why) => refused(request.id, ErrorCode::InvalidParams, &why.to_string()),
                }
            }
            Message::Request(request) => {
                refused(request.id, ErrorCode::ServerNotInitialized, "`initialize` comes first")
            }
            Message::Notification(told) if is::<tell::Exit>(&told) => return None,
            Message::Notification(_) | Message::Response(_) => continue,
        };
        connection.sender.send(refusal.into()).ok()?;
    }
    None
}

fn refused(id: RequestId, code: ErrorCode, why: &str) -> Response {
    Response::new_err(id, code as i32, why.to_owned())
}

fn is<N: tell::Notification>(told: &Notification) -> bool {
    told.method == N::METHOD
}

/// `None` where the client is gone.
fn serve(connection: &Connection, mut state: State) -> Option<Ended> {
    let mut shut_down = false;
    loop {
        let message = match connection.receiver.try_recv() {
            Ok(message) => message,
            Err(TryRecvError::Disconnected) => return None,
            // Nothing waits: time to check what has changed.
            Err(TryRecvError::Empty) => {
                send(connection, state.check())?;
                select! {
                    recv(connection.receiver) -> message => message.ok()?,
                    recv(state.worker.done) -> done => {
                        send(connection, state.take(done.ok()?))?;
                        continue;
                    }
                }
            }
        };
        match message {
            Message::Request(request) if shut_down => {
                let refusal = refused(request.id, ErrorCode::InvalidRequest, "the server is shut down");
                send(connection, [refusal.into()])?;
            }
            Message::Request(request) => {
                send(connection, state.check())?;
                shut_down = request.method == ask::Shutdown::METHOD;
                send(connection, [answer(&state, request).into()])?;
            }
            Message::Notification(told) if is::<tell::Exit>(&told) => {
                return Some(if shut_down { Ended::InOrder } else { Ended::Abruptly });
            }
            Message::Notification(told) if is::<tell::Initialized>(&told) => send(connection, state.watch())?,
            Message::Notification(told) => hear(&mut state, told),
            Message::Response(_) => {}
        }
    }
}

fn send(connection: &Connection, messages: impl IntoIterator<Item = Message>) -> Option<()> {
    messages.into_iter().try_for_each(|message| connection.sender.send(message).ok())
}

fn answer(state: &State, request: Request) -> Response {
    match request.method.as_str() {
        ask::Shutdown::METHOD => Response::new_ok(request.id, ()),
        ask::Initialize::METHOD => refused(request.id, ErrorCode::InvalidRequest, "this was said already"),
        _ => requests::answer(state, request),
    }
}

/// Takes what the client tells; what nobody knows, or makes no sense, is let pass.
fn hear(state: &mut State, told: Notification) {
    fn of<N: tell::Notification>(told: Notification) -> Option<N::Params> {
        serde_json::from_value(told.params).ok()
    }
    if is::<tell::DidOpenTextDocument>(&told) {
        let Some(params) = of::<tell::DidOpenTextDocument>(told) else { return };
        let text = params.text_document;
        state.open(Document::open(text.uri, text.version, text.text));
    } else if is::<tell::DidChangeTextDocument>(&told) {
        let Some(params) = of::<tell::DidChangeTextDocument>(told) else { return };
        let (text, encoding) = (params.text_document, state.encoding);
        state.edit(&text.uri, |document| document.edit(text.version, params.content_changes, encoding));
    } else if is::<tell::DidCloseTextDocument>(&told) {
        let Some(params) = of::<tell::DidCloseTextDocument>(told) else { return };
        state.close(&params.text_document.uri);
    } else if is::<tell::DidChangeConfiguration>(&told) {
        let Some(mut params) = of::<tell::DidChangeConfiguration>(told) else { return };
        // Some clients send all they have, others what is this server's.
        let own = params.settings.get_mut("dwell").map(serde_json::Value::take);
        state.settings = own.unwrap_or(params.settings);
    } else if is::<tell::DidChangeWatchedFiles>(&told) {
        let Some(params) = of::<tell::DidChangeWatchedFiles>(told) else { return };
        for change in params.changes {
            state.changed(path_of(&change.uri).as_deref());
        }
    }
}
