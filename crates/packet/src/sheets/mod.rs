//! The sheets of a packet, one file each: build and facts in, rows of typed cells out.
//!
//! A new sheet is a file here with a function `sheet`, its texts in a file of `words`, and a line in [`SHEETS`].

mod air;
mod around;
mod as_built;
mod boards;
mod circuits;
mod climate;
mod conductors;
mod devices;
mod directory;
mod energy;
mod evidence;
mod facts;
mod findings;
mod gas;
mod hazards;
mod home;
mod jobs;
mod labels;
mod mass;
mod materials;
mod modes;
mod owner;
mod parts;
mod questions;
mod rescue;
mod results;
mod runs;
mod safety;
mod service;
mod tests;
mod warmth;
mod week;

pub use energy::{Season, seasons};

use crate::LeftOut;
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Column, Form, Row, Sheet};
use crate::words;

/// What came of a document.
pub enum Made {
    /// The sheet.
    Sheet(Sheet),
    /// There is nothing to show: its title, and why.
    Nothing(&'static str, &'static str),
}

/// What makes a sheet.
type Maker = fn(&mut Desk<'_, '_>, &Head) -> Made;

/// The sheets, in the order of the packet.
const SHEETS: &[Maker] = &[
    findings::sheet,
    questions::sheet,
    hazards::sheet,
    circuits::sheet,
    conductors::sheet,
    devices::sheet,
    directory::sheet,
    labels::sheet,
    modes::sheet,
    modes::live,
    modes::cut,
    energy::sheet,
    week::sheet,
    mass::axles,
    mass::balance,
    mass::things,
    mass::moves,
    climate::sheet,
    home::heat,
    home::faces,
    warmth::ducts,
    warmth::compartments,
    warmth::holes,
    home::night,
    home::moisture,
    home::stores,
    home::lines,
    home::waste,
    home::frost,
    gas::stores,
    gas::lockers,
    gas::lines,
    gas::pipes,
    gas::appliances,
    air::spaces,
    air::vents,
    air::terminals,
    safety::alarms,
    safety::exits,
    safety::ways,
    around::sheet,
    tests::sheet,
    as_built::sheet,
    materials::sheet,
    boards::sheet,
    jobs::sheet,
    evidence::sheet,
    service::sheet,
    owner::sheet,
    rescue::sheet,
    parts::sheet,
];

/// The sheets that are tables of facts: a test looks at their names.
#[cfg(test)]
const TABLES: &[&facts::FactTable] = &[
    &home::HEAT,
    &home::FACES,
    &warmth::DUCTS,
    &warmth::COMPARTMENTS,
    &warmth::HOLES,
    &home::NIGHT,
    &home::MOISTURE,
    &home::STORES,
    &home::LINES,
    &home::WASTE,
    &home::FROST,
    &gas::STORES,
    &gas::LOCKERS,
    &gas::LINES,
    &gas::PIPES,
    &gas::APPLIANCES,
    &air::SPACES,
    &air::VENTS,
    &air::TERMINALS,
    &safety::ALARMS,
    &safety::EXITS,
    &safety::WAYS,
    &around::AROUND,
];

/// Every sheet, and what is left out.
pub fn all(desk: &mut Desk<'_, '_>, head: &Head) -> (Vec<Sheet>, Vec<LeftOut>) {
    let mut sheets = Vec::new();
    let mut left_out = Vec::new();
    for make in SHEETS {
        match make(desk, head) {
            Made::Sheet(sheet) if !sheet.rows.is_empty() => sheets.push(sheet),
            Made::Sheet(sheet) => left_out.push(out(sheet.title, words::NOT_DESCRIBED)),
            Made::Nothing(title, why) => left_out.push(out(title, why)),
        }
    }
    (sheets, left_out)
}

fn out(title: &str, why: &str) -> LeftOut {
    LeftOut { title: title.to_owned(), why: why.to_owned() }
}

/// A sheet without rows: its name, title and purpose, and its columns.
fn table(id: &'static str, title: &'static str, purpose: &'static str, columns: &[Column]) -> Sheet {
    Sheet {
        id,
        title,
        purpose,
        form: Form::Table,
        columns: columns.to_vec(),
        rows: Vec::new(),
        notes: Vec::new(),
        sources: Vec::new(),
    }
}

/// The sheet, or that there is nothing to show.
fn made(sheet: Sheet, why: &'static str) -> Made {
    if sheet.rows.is_empty() { Made::Nothing(sheet.title, why) } else { Made::Sheet(sheet) }
}

/// A row under a heading.
fn under(group: &str, row: Row) -> Row {
    Row { group: group.to_owned(), ..row }
}

/// Rows of one heading together, the headings in the order in which they first come.
fn grouped(rows: Vec<Row>) -> Vec<Row> {
    let mut order: Vec<String> = Vec::new();
    for row in &rows {
        if !order.contains(&row.group) {
            order.push(row.group.clone());
        }
    }
    let place: std::collections::HashMap<&str, usize> =
        order.iter().enumerate().map(|(place, group)| (group.as_str(), place)).collect();
    let mut placed: Vec<(usize, Row)> =
        rows.into_iter().map(|row| (place.get(row.group.as_str()).copied().unwrap_or(0), row)).collect();
    placed.sort_by_key(|(place, _)| *place);
    placed.into_iter().map(|(_, row)| row).collect()
}

/// The size of a conductor as it is written, for drawings.
pub fn conductor_size(desk: &mut Desk<'_, '_>, conductor: design::PartId) -> crate::sheet::Cell {
    conductors::size(desk, conductor)
}

/// Rating and class of a device, for drawings.
pub fn device_title(desk: &mut Desk<'_, '_>, device: design::PartId) -> String {
    devices::title(desk, device)
}
