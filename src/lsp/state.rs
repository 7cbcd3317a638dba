//! Everything the server knows: what is open, what was found in it, and what the client has been told.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use lsp_server::{Message, Notification};
use lsp_types::notification::{DidChangeWatchedFiles, Notification as _, PublishDiagnostics};
use lsp_types::request::{InlayHintRefreshRequest, RegisterCapability, Request};
use lsp_types::{
    ClientCapabilities, InitializeParams, PublishDiagnosticsParams, Registration, RegistrationParams, Uri,
};
use serde_json::json;

use super::check::{self, Done, Job, Outcome, Worker};
use super::documents::{Checked, Document, path_of, texts};
use super::fault::Fault;
use super::overlay::{Overlay, Texts};
use super::positions::Encoding;
use super::publish::{self, ByFile};
use crate::compile::own_tables;
use crate::editor::NewFile;
use crate::findings::Finding;
use crate::folder::{Folder, cooks_in};
use crate::stop::Stop;
use crate::tables::Tables;
use crate::text::Source;

pub struct State {
    pub encoding: Encoding,
    pub client: ClientCapabilities,
    /// What the client wants, as it said when it connected, or last.
    pub settings: serde_json::Value,
    /// The folders that it has open.
    folders: Vec<Arc<Folder>>,
    /// By their URIs.
    documents: BTreeMap<String, Document>,
    /// What was found, by the text that it was found from.
    found: BTreeMap<String, ByFile>,
    /// What the client shows.
    shown: ByFile,
    pub worker: Worker,
    /// Requests made of the client.
    asked: i32,
}

impl State {
    pub fn new(client: InitializeParams, encoding: Encoding, worker: Worker) -> Self {
        let named = client.workspace_folders.unwrap_or_default().into_iter().map(|folder| folder.uri);
        #[allow(deprecated, reason = "what older clients say instead")]
        let root = client.root_uri.filter(|_| named.len() == 0);
        let folders = named.chain(root).filter_map(|uri| Folder::new(&path_of(&uri)?).ok().map(Arc::new));
        Self {
            encoding,
            folders: folders.collect(),
            client: client.capabilities,
            settings: client.initialization_options.unwrap_or_default(),
            documents: BTreeMap::new(),
            found: BTreeMap::new(),
            shown: BTreeMap::new(),
            worker,
            asked: 0,
        }
    }

    pub fn document(&self, uri: &Uri) -> Option<&Document> {
        self.documents.get(uri.as_str())
    }

    /// Everything that is open.
    pub fn documents(&self) -> impl Iterator<Item = &Document> {
        self.documents.values()
    }

    /// Their texts, by where they really lie.
    pub fn open_texts(&self) -> Texts {
        texts(&self.documents)
    }

    /// The tables that count for an open text, with the folder's own rows.
    pub fn tables(&self, uri: &Uri) -> Cow<'static, Tables> {
        let Some(document) = self.document(uri) else { return Cow::Borrowed(Tables::built_in()) };
        let overlay = Overlay::new(self.folder_of(document), Arc::new(texts(&self.documents)));
        own_tables(&overlay, &document.source.path).tables()
    }

    /// The names of the cooks in the folder of an open text, saved or not, in order and without its own.
    pub fn files_beside(&self, uri: &Uri) -> Vec<String> {
        let path = self.document(uri).and_then(|document| document.path.as_deref());
        let Some((folder, own)) = path.and_then(|path| path.parent().zip(path.file_name())) else {
            return Vec::new();
        };
        let open = self.documents().filter_map(|open| open.path.as_deref());
        let open = open.filter(|path| path.parent() == Some(folder));
        let open = open.filter_map(|path| Some(path.file_name()?.to_str()?.to_owned()));
        let all: BTreeSet<String> = cooks_in(folder).into_iter().chain(open).collect();
        all.into_iter().filter(|name| name.ends_with(".dwell") && own != name.as_str()).collect()
    }

    pub fn open(&mut self, document: Document) {
        let path = document.path.clone();
        self.documents.insert(document.uri.as_str().to_owned(), document);
        self.changed(path.as_deref());
    }

    pub fn edit(&mut self, uri: &Uri, edit: impl FnOnce(&mut Document)) {
        let Some(document) = self.documents.get_mut(uri.as_str()) else { return };
        edit(document);
        let path = document.path.clone();
        self.changed(path.as_deref());
    }

    pub fn close(&mut self, uri: &Uri) {
        let Some(document) = self.documents.remove(uri.as_str()) else { return };
        self.found.remove(uri.as_str());
        self.changed(document.path.as_deref());
    }

    /// A file has another text: what names it has to be checked again.
    pub fn changed(&mut self, path: Option<&Path>) {
        let Some(path) = path else { return };
        self.documents.values_mut().filter(|document| document.names(path)).for_each(Document::change);
    }

    /// Checks what has changed: what it declares now, the rest on the other thread. Gives what to tell the client.
    pub fn check(&mut self) -> Vec<Message> {
        let stale: Vec<String> = self
            .documents
            .iter()
            .filter(|(_, open)| open.stale && open.is_cook())
            .map(|(uri, _)| uri.clone())
            .collect();
        if stale.is_empty() {
            return self.news();
        }
        let open = Arc::new(self.open_texts());
        for uri in stale {
            let folder = self.documents.get(&uri).and_then(|document| self.folder_of(document));
            let Some(document) = self.documents.get_mut(&uri) else { continue };
            document.stale = false;
            let overlay = || Overlay::new(folder.clone(), open.clone());
            // A fault of ours costs the findings of this text alone.
            let check = || check::declared(overlay(), &document.source);
            let checked = catch_unwind(AssertUnwindSafe(check)).ok();
            document.fault = checked.is_none().then_some(Fault::Declared);
            let whole = checked.as_ref().is_some_and(|checked| checked.compiled.understood());
            document.checked = checked.map(Arc::new);
            if whole {
                let stop = Stop::default();
                document.running = Some(stop.clone());
                self.worker.check(Job {
                    uri: uri.clone(),
                    stop,
                    overlay: overlay(),
                    source: document.source.clone(),
                });
            }
            self.found_in(&uri);
        }
        self.news()
    }

    /// What is found in an open text if it read like this and had these files beside it, as far as that is declared.
    pub fn declared_in(&self, document: &Document, text: &str, files: &[NewFile]) -> Vec<Finding> {
        let mut open = texts(&self.documents);
        for (name, text) in files {
            if let Some(path) = document.beside(name) {
                open.insert(path, Arc::new(Source::new(name, text)));
            }
        }
        let overlay = Overlay::new(self.folder_of(document), Arc::new(open));
        let source = Source::new(document.source.path.clone(), text);
        check::declared(overlay, &source).compiled.findings
    }

    /// Takes what a full check has come to.
    pub fn take(&mut self, done: Done) -> Vec<Message> {
        let Some(document) = self.documents.get_mut(&done.uri).filter(|_| !done.stop.is_asked()) else {
            return Vec::new();
        };
        let mut news = Vec::new();
        match done.result {
            Outcome::Planned(checked) => {
                document.checked = Some(checked);
                news.extend(self.refresh_hints());
            }
            Outcome::Cured(found) => {
                if let Some(checked) = document.checked.as_mut().and_then(Arc::get_mut) {
                    checked.compiled.cure(found);
                }
            }
            Outcome::Failed(fault) => document.fault = Some(fault),
        }
        self.found_in(&done.uri);
        news.extend(self.news());
        news
    }

    /// Asks to be told of files that change on disk, of a client that can.
    pub fn watch(&mut self) -> Option<Message> {
        let files = self.client.workspace.as_ref()?.did_change_watched_files.as_ref()?;
        files.dynamic_registration.filter(|can| *can)?;
        let globs = ["**/*.dwell", "**/dwell.toml"].map(|glob| json!({ "globPattern": glob }));
        Some(self.request::<RegisterCapability>(RegistrationParams {
            registrations: vec![Registration {
                id: "files".to_owned(),
                method: DidChangeWatchedFiles::METHOD.to_owned(),
                register_options: Some(json!({ "watchers": globs })),
            }],
        }))
    }

    /// Asks for what is shown between the words to be fetched again, now that times and temperatures are known.
    fn refresh_hints(&mut self) -> Option<Message> {
        let hints = self.client.workspace.as_ref()?.inlay_hint.as_ref()?;
        hints.refresh_support.filter(|can| *can)?;
        Some(self.request::<InlayHintRefreshRequest>(()))
    }

    /// A request of the client. Nothing hangs on its answer.
    pub fn request<R: Request>(&mut self, params: R::Params) -> Message {
        self.asked += 1;
        lsp_server::Request::new(self.asked.into(), R::METHOD.to_owned(), params).into()
    }

    /// What the client calls a file: as it did when it opened it.
    pub fn uri_of(&self, path: &str) -> Uri {
        let open = self.documents.values().find(|document| document.source.path == path);
        open.map_or_else(|| publish::uri_of(path), |document| document.uri.clone())
    }

    fn found_in(&mut self, uri: &str) {
        let Some(document) = self.documents.get(uri) else { return };
        let name = |path: &str| self.uri_of(path);
        let checked = document.checked.as_deref();
        let found =
            checked.map(|Checked { compiled, .. }| publish::diagnostics(compiled, self.encoding, &name));
        let mut found = found.unwrap_or_default();
        if let Some(fault) = document.fault {
            found.entry(uri.to_owned()).or_default().insert(0, fault.shown());
        }
        self.found.insert(uri.to_owned(), found);
    }

    /// What the client does not show yet, or should show no more.
    fn news(&mut self) -> Vec<Message> {
        let mut now = ByFile::new();
        for (uri, diagnostics) in self.found.values().flatten() {
            let all = now.entry(uri.clone()).or_default();
            for diagnostic in diagnostics {
                if !all.contains(diagnostic) {
                    all.push(diagnostic.clone());
                }
            }
        }
        now.retain(|_, diagnostics| !diagnostics.is_empty());
        let files: BTreeSet<&String> = now.keys().chain(self.shown.keys()).collect();
        let news = files.into_iter().filter(|uri| now.get(*uri) != self.shown.get(*uri));
        let news = news.filter_map(|uri| {
            let version = self.documents.get(uri).map(|document| document.version);
            let diagnostics = now.get(uri).cloned().unwrap_or_default();
            let params = PublishDiagnosticsParams::new(uri.parse().ok()?, diagnostics, version);
            Some(Message::from(Notification::new(PublishDiagnostics::METHOD.to_owned(), params)))
        });
        let news = news.collect();
        self.shown = now;
        news
    }

    /// The folder that a text may name files in: the innermost one that the client has open, or else its own.
    pub fn folder_of(&self, document: &Document) -> Option<Arc<Folder>> {
        let path: &PathBuf = document.path.as_ref()?;
        let around = self.folders.iter().filter(|folder| folder.encloses(path));
        let innermost = around.max_by_key(|folder| folder.depth()).cloned();
        innermost.or_else(|| Folder::new(path.parent()?).ok().map(Arc::new))
    }
}
