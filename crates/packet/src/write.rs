//! Writers: one page, table files, drawing files, JSON. Each gives text; who calls writes it to where it belongs.

mod changes;
mod files;
mod front;
mod html;
mod json;
mod rows;
mod svg;
mod table;

pub use changes::{CHANGES_FORM, CHANGES_VERSION, changes_html, changes_json, changes_sheet};
pub use files::{FILE_JSON, FILE_PAGE, FILE_PDF, FOLDER_DRAWINGS, FOLDER_TABLES, FORM, PacketFile, files};
pub use html::html;
pub use json::{VERSION, json};
pub use svg::svg;
pub use table::{about, csv};
