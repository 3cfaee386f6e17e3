//! The faults of a text that could not be read, when that is all there is to say of it.

use crate::excerpt::excerpt;
use crate::finding_terminal::mend;
use crate::places::Places;
use crate::sanitise::prose;
use crate::sheet::Sheet;
use crate::{Style, visible};
use owo_colors::Style as Paint;
use rules::Signal;
use rules::finding::{FileText, Mend, Place};
use spec::text::{Bytes, TextFault};
use std::ops::Range;

/// Columns before the text of a fault.
const INDENT: &str = "    ";

/// What is wrong with a text, and how to mend it, for someone who wanted to do something else with it.
pub fn unread(file: &FileText, faults: &[TextFault], style: Style) -> String {
    let mut sheet = Sheet::new(style);
    let files = std::slice::from_ref(file);
    let places = Places::new(files);
    let heading =
        format!("{} cannot be read: {}", visible(&file.name), crate::words::counted(faults.len(), "fault", "faults"));
    sheet.heading(&heading, Paint::new().bold());
    for fault in faults {
        let place = Place { file: 0, bytes: bytes(&fault.at) };
        sheet.gap();
        match sheet.options() {
            Some(options) => {
                sheet.paragraph(&prose(&fault.message), "  ", INDENT);
                sheet.line(&format!("{INDENT}{}", places.short(&place)));
                let drawn = excerpt(&places, &place, &[], Signal::Warning, options, INDENT);
                sheet.drawn(&drawn);
            }
            None => {
                sheet.line(&crate::sanitise::sentence(&fault.message));
                sheet.field("", "Place", &places.long(&place));
            }
        }
        sheet.field(INDENT, "Do this", &prose(&fault.help));
        if let Some(instead) = &fault.instead {
            let offered = Mend {
                title: String::from("one edit mends it"),
                place: Place { file: 0, bytes: bytes(&instead.at) },
                text: instead.text.clone(),
            };
            sheet.field(INDENT, "Mend", &mend(&places, &offered, &where_to(&sheet, &places, &offered.place)));
        }
        sheet.field(INDENT, "Why", &prose(&fault.why));
        sheet.field(INDENT, "Rule", fault.kind.rule());
    }
    sheet.finish()
}

fn where_to(sheet: &Sheet, places: &Places, place: &Place) -> String {
    if sheet.options().is_some() { places.short(place) } else { places.long(place) }
}

fn bytes(at: &Bytes) -> Range<usize> {
    at.start as usize..at.end as usize
}
