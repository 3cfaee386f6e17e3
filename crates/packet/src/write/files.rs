//! The files of a packet.

use super::{about, csv, html, json, svg};
use crate::Packet;

/// The page.
pub const FILE_PAGE: &str = "packet.html";
/// Everything as data.
pub const FILE_JSON: &str = "packet.json";
/// The page as printed.
pub const FILE_PDF: &str = "packet.pdf";
/// Where the table files are.
pub const FOLDER_TABLES: &str = "tables";
/// Where the drawing files are.
pub const FOLDER_DRAWINGS: &str = "drawings";
/// What `packet.json` says that it is, by which a folder is known again.
pub const FORM: &str = "coachwright review packet";

/// One file: its name in the folder, with `/` between, and its text.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PacketFile {
    /// The name.
    pub name: String,
    /// The text.
    pub text: String,
}

/// Every file of a packet but the printed page.
///
/// # Errors
/// In words: a table could not be written, which is a fault of the program.
pub fn files(packet: &Packet) -> Result<Vec<PacketFile>, String> {
    let file = |name: String, text: String| PacketFile { name, text };
    let mut files = vec![file(FILE_PAGE.to_owned(), html(packet)), file(FILE_JSON.to_owned(), pretty(packet)?)];
    files.push(file(format!("{FOLDER_TABLES}/about.csv"), about(&packet.head)?));
    for sheet in &packet.sheets {
        files.push(file(format!("{FOLDER_TABLES}/{}.csv", sheet.id), csv(sheet, packet)?));
    }
    for drawing in &packet.drawings {
        files.push(file(format!("{FOLDER_DRAWINGS}/{}.svg", drawing.id), svg(drawing, packet)));
    }
    Ok(files)
}

fn pretty(packet: &Packet) -> Result<String, String> {
    serde_json::to_string_pretty(&json(packet)).map(|text| text + "\n").map_err(|error| error.to_string())
}
