//! The texts that differ where a build is judged by the rules of the United States alone: spelling, and words of the trade
//! (common practice, no source). What the builder wrote stays as it is written.

use super::{air, changes, drawings, evidence, hazards, home, labels, mass, owner, rescue, service, tests};
use crate::drawing::Drawing;
use crate::sheet::{Sheet, Value};
use design::Build;

/// A text of ours, and how it is said in the United States.
const SAID: &[(&str, &str)] = &[
    (air::PETROL_DISTANCE, "Nearest gasoline tank"),
    (changes::CENTRE, "center of gravity above the road"),
    (drawings::LEFT_SIDE_PURPOSE, "What stands left of the center line, seen from outside on the left."),
    (drawings::RIGHT_SIDE_PURPOSE, "What stands right of the center line, seen from outside on the right."),
    (evidence::PROTECTION_TESTS, "insulation, grounding, polarity and ground-fault tests"),
    (hazards::RCD, "ground-fault device"),
    (hazards::EARTHED, "ground bond"),
    (home::ALL_USED, "All gray tanks"),
    (
        home::NOTE_MOISTURE,
        "A face that is colder than the dew point is wet. Mold grows where the air at a face stays above 80 %.",
    ),
    (labels::BOARD, "AC panelboard. Disconnect the shore cord and every inverter before opening."),
    (labels::TEST_RCD, "Press the test button of the ground-fault device after each connection."),
    (mass::TYRES, "Tires carry"),
    (mass::CENTRE_BEHIND, "Center of gravity behind where x begins"),
    (mass::CENTRE_HEIGHT, "Center of gravity above the road"),
    (
        mass::NOTE_STABILITY,
        "Half the track over the height of the center of gravity is the sideways acceleration, as a part of gravity, at which a rigid vehicle would tip.",
    ),
    (owner::SHORE_OFF, "Cut the shore power"),
    (
        owner::SHORE_DO,
        "Pull the shore cord at the site's post. An inverter can still feed the outlets: switch it off too.",
    ),
    (
        rescue::PURPOSE,
        "For fire services, behind the windshield: what this conversion carries that the base vehicle's own card does not show.",
    ),
    (rescue::MAINS, "Shore power inlet"),
    (rescue::MAINS_DO, "may be live while a cord is plugged in; an inverter can feed the outlets without it"),
    (
        rescue::NOTE,
        "Places: x rearward of the front axle, y to the right of the center line, z above the living floor.",
    ),
    (service::RCD.0, "Press the test button of the ground-fault device"),
    (tests::EARTH, "Continuity of the equipment ground to the board's grounding bar"),
    (tests::INSULATION, "Insulation of live conductors to ground, at 500 V of direct current"),
    (tests::RCD, "Trip time of the ground-fault device at its rated current"),
    (tests::RCD_BUTTON, "Test button of the ground-fault device"),
];

/// A text as it is said in the United States; itself where nothing differs.
fn said(text: &'static str) -> &'static str {
    SAID.iter().find(|(ours, _)| *ours == text).map_or(text, |(_, theirs)| theirs)
}

/// Whether a build is judged by the rules of the United States alone.
pub fn is_spoken(build: &Build) -> bool {
    let regions = build.regions;
    regions.us && !(regions.eu || regions.uk || regions.au_nz)
}

/// A text in the words of a build's regions.
pub fn in_words(build: &Build, text: &'static str) -> &'static str {
    if is_spoken(build) { said(text) } else { text }
}

/// A text that is wholly ours.
pub fn respell(text: &mut String) {
    if let Some((_, theirs)) = SAID.iter().find(|(ours, _)| ours == text) {
        text.clear();
        text.push_str(theirs);
    }
}

/// A sheet as it is said in the United States.
pub fn sheet(sheet: &mut Sheet) {
    sheet.title = said(sheet.title);
    sheet.purpose = said(sheet.purpose);
    for column in &mut sheet.columns {
        column.title = said(column.title);
    }
    sheet.notes.iter_mut().for_each(respell);
    for row in &mut sheet.rows {
        respell(&mut row.group);
        for cell in &mut row.cells {
            if let Value::Text(text) = &mut cell.value {
                respell(text);
            }
        }
    }
}

/// A drawing as it is said in the United States.
pub fn drawing(drawing: &mut Drawing) {
    drawing.title = said(drawing.title);
    drawing.purpose = said(drawing.purpose);
}
