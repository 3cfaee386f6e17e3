//! What the examples of rule packs prove, and what is wrong with rule files.

use crate::excerpt::excerpt;
use crate::places::Places;
use crate::sanitise::prose;
use crate::sheet::Sheet;
use crate::words::counted;
use crate::{Style, visible};
use owo_colors::Style as Paint;
use rules::Signal;
use rules::finding::{FileText, Place};
use rules::pack::PackFault;
use rules::prove::{Clause, Proof, RuleProof, Side};

/// What the examples of rule files prove. `files` are the files that were proved, by the names that faults give.
pub fn proof(proof: &Proof, files: &[FileText], style: Style) -> String {
    let mut sheet = Sheet::new(style);
    let examples: usize = proof.rules.iter().map(|rule| rule.examples).sum();
    let head = match proof.rules.len() {
        0 => String::from("No rule could be proved"),
        rules => format!(
            "{} with {}, masking MC/DC {}",
            counted(rules, "rule", "rules"),
            counted(examples, "example", "examples"),
            percent(proof.percent())
        ),
    };
    sheet.heading(&head, Paint::new().bold());
    for rule in &proof.rules {
        self::rule(&mut sheet, rule);
    }
    sheet.gap();
    if proof.faults.is_empty() {
        sheet.paragraph("Every example comes out as it says, and every condition is shown to decide.", "", "");
    } else {
        faults(&mut sheet, &proof.faults, files);
        sheet.gap();
        sheet.paragraph(&format!("Not proved: {}.", counted(proof.faults.len(), "fault", "faults")), "", "");
    }
    sheet.finish()
}

/// What is wrong with rule files, when that is all there is to say of them.
pub fn pack_faults(faults: &[PackFault], files: &[FileText], style: Style) -> String {
    let mut sheet = Sheet::new(style);
    self::faults(&mut sheet, faults, files);
    sheet.finish()
}

fn rule(sheet: &mut Sheet, rule: &RuleProof) {
    let (shown, all) = rule.sides();
    let conditions = match all {
        0 => String::from("no condition to show"),
        _ => format!("MC/DC {} ({shown} of {all} sides)", percent(rule.percent())),
    };
    let mutation = rule.mutation.map_or_else(String::new, |mutation| {
        let noticed = mutation.tried.saturating_sub(mutation.survived);
        format!(", {noticed} of {} wrong versions noticed", mutation.tried)
    });
    let right = format!("{} of {} as they say", rule.right, counted(rule.examples, "example", "examples"));
    match sheet.options() {
        Some(_) => {
            sheet.paragraph(&visible(&rule.name), "  ", "  ");
            sheet.paragraph(&format!("{right}, {conditions}{mutation}"), "      ", "      ");
        }
        None => sheet.line(&format!("{}: {right}, {conditions}{mutation}.", visible(&rule.name))),
    }
    for condition in &rule.conditions {
        let clause = match condition.clause {
            Clause::When => "when",
            Clause::Must => "must",
        };
        for (side, word) in [(condition.yes, "true"), (condition.no, "false")] {
            if side == Side::Missing {
                let text = format!("not shown to decide when {word}: {} (in {clause})", prose(&condition.text));
                sheet.paragraph(&text, "      ", "        ");
            }
        }
    }
}

fn faults(sheet: &mut Sheet, faults: &[PackFault], files: &[FileText]) {
    let places = Places::new(files);
    for fault in faults {
        // A fault of a file that was not handed over still says what is wrong, and in which file.
        let file = files.iter().position(|file| file.name == fault.file);
        let place = Place { file: file.unwrap_or(usize::MAX), bytes: fault.at.clone() };
        sheet.gap();
        sheet.paragraph(&prose(&fault.message), "  ", "  ");
        match sheet.options() {
            _ if file.is_none() => sheet.line(&format!("    {}", visible(&fault.file))),
            Some(options) => {
                sheet.line(&format!("    {}", places.short(&place)));
                let drawn = excerpt(&places, &place, &[], Signal::Caution, options, "    ");
                sheet.drawn(&drawn);
            }
            None => sheet.field("", "Place", &places.long(&place)),
        }
        sheet.field("    ", "Do this", &prose(&fault.help));
    }
}

fn percent(share: f64) -> String {
    // A share just below the whole must not read as the whole.
    let tenths = (share * 10.0).floor() / 10.0;
    if tenths.fract() == 0.0 { format!("{tenths:.0} %") } else { format!("{tenths:.1} %") }
}
