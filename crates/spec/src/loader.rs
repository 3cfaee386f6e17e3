//! How the reader gets the text of a file, without knowing where it comes from.

use crate::text::TextFault;

/// A file's name and text.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Loaded {
    /// The name by which the same file is always known, so that circles are seen.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// Why a file could not be had.
#[derive(Clone, PartialEq, Debug)]
pub enum LoadFault {
    /// It is not there, is a folder, may not be read; the sentence says which.
    Refused(String),
    /// It was read and is no text that we read: not UTF-8, too large.
    NotText(TextFault),
}

/// Gives the reader its texts. The command line reads files, the language server its open documents, tests a table.
pub trait Loader {
    /// The text of the file `name`; relative to the file `from`, when an include in that file asks for it.
    ///
    /// # Errors
    /// [`LoadFault`] when there is no such text.
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault>;
}

/// A loader that knows one text and no other file.
#[derive(Clone, Debug)]
pub struct SingleText<'a>(pub &'a str);

impl Loader for SingleText<'_> {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        match from {
            None => Ok(Loaded { name: name.to_owned(), text: self.0.to_owned() }),
            Some(_) => Err(LoadFault::Refused(format!("there is no file {name} here"))),
        }
    }
}
