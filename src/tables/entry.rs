//! Rows of an embedded table that are read when somebody asks for them: a cook names a handful, and should not wait for the
//! rest.

use std::sync::{Arc, OnceLock};

/// A row, and the names it goes by.
#[derive(Debug, Clone)]
pub struct Entry<T> {
    pub name: String,
    pub also: Vec<String>,
    text: &'static str,
    read: fn(&'static str) -> T,
    row: OnceLock<Arc<T>>,
}

impl<T> Entry<T> {
    /// Of an embedded table. Only the names are looked for here; they stand each on one line.
    pub fn embedded(text: &'static str, read: fn(&'static str) -> T) -> Self {
        let quoted = |key: &str| -> Vec<String> {
            text.lines()
                .find_map(|line| line.strip_prefix(key))
                .map(|list| list.split('"').skip(1).step_by(2).map(str::to_owned).collect())
                .unwrap_or_default()
        };
        Self { name: quoted("name = ").concat(), also: quoted("also = "), text, read, row: OnceLock::new() }
    }

    /// One that is there already; `read` is never asked.
    pub fn own(name: String, also: Vec<String>, row: T, read: fn(&'static str) -> T) -> Self {
        Self { name, also, text: "", read, row: OnceLock::from(Arc::new(row)) }
    }

    pub fn row(&self) -> Arc<T> {
        self.row.get_or_init(|| Arc::new((self.read)(self.text))).clone()
    }
}
