//! Waivers: what they accept, and what is wrong with them.

use super::Today;
use super::slips;
use super::{Item, written};
use crate::finding::Waived;
use crate::pack::Packs;
use crate::signal::Signal;
use design::{Build, PartId};
use jiff::civil::Date;
use spec::{Slip, Value};
use vocabulary::{FactId, fact::waive as w, kind};

/// A waiver as it is written.
struct Waiver {
    part: PartId,
    rule: String,
    on: Option<String>,
    reason: Option<String>,
    by: Option<String>,
    until: Option<Date>,
    evidence: Option<String>,
}

/// Takes what is waived out of the failed and open findings, and adds findings on waivers that are stale or incomplete.
pub fn apply(build: &Build, packs: &Packs, today: Today, failed: &mut Vec<Item>, open: &mut Vec<Item>) -> Vec<Item> {
    let mut waived = Vec::new();
    let mut wrong = Vec::new();
    for &part in build.of_kind(kind::WAIVE).members.iter() {
        let Some(waiver) = read(build, part) else { continue };
        let matching: Vec<Signal> = failed
            .iter()
            .chain(open.iter())
            .filter(|item| matches(build, &waiver, item))
            .map(|item| item.finding.signal)
            .collect();
        let slip = fault(build, packs, today, &waiver, &matching);
        let stands = slip.is_none();
        wrong.extend(slip);
        if !stands {
            continue;
        }
        for list in [&mut *failed, &mut *open] {
            let mut index = 0;
            while index < list.len() {
                if matches(build, &waiver, &list[index]) {
                    let mut item = list.remove(index);
                    item.finding.waived = Some(Waived {
                        reason: waiver.reason.clone().unwrap_or_default(),
                        by: waiver.by.clone().unwrap_or_default(),
                        until: waiver.until.map(|until| until.to_string()),
                        evidence: waiver.evidence.clone(),
                        place: slips::place(&build.part(part).head),
                    });
                    waived.push(item);
                } else {
                    index += 1;
                }
            }
        }
    }
    if !wrong.is_empty() {
        let places = slips::Places::of(build);
        failed.extend(wrong.iter().map(|slip| slips::item(build, &places, packs, slip)));
    }
    waived
}

fn read(build: &Build, part: PartId) -> Option<Waiver> {
    let text = |fact: FactId| match &build.part(part).given(fact)?.value {
        Value::Text(text) => Some(text.trim().to_owned()).filter(|text| !text.is_empty()),
        _ => None,
    };
    let until = match build.part(part).given(w::UNTIL).map(|given| &given.value) {
        Some(Value::Date(date)) => Some(*date),
        _ => None,
    };
    Some(Waiver {
        part,
        rule: text(w::RULE)?,
        on: text(w::ON),
        reason: text(w::REASON),
        by: text(w::BY),
        until,
        evidence: text(w::EVIDENCE),
    })
}

/// Whether a waiver speaks of a finding: the rule, and the part by its name or that of what it stands in.
fn matches(build: &Build, waiver: &Waiver, item: &Item) -> bool {
    if *item.finding.rule != *waiver.rule {
        return false;
    }
    match (&waiver.on, item.part) {
        (None, None) => true,
        (None, Some(part)) => part == Build::ROOT,
        (Some(_), None) => false,
        (Some(on), Some(part)) => {
            let mut next = Some(written(build, part));
            let own = build.part(part).name.as_deref();
            if own == Some(on) || *build.part(part).title == **on {
                return true;
            }
            while let Some(part) = next {
                let part = build.part(part);
                if part.name.as_deref() == Some(on) || *part.title == **on {
                    return true;
                }
                next = part.outer;
            }
            false
        }
    }
}

/// What is wrong with a waiver, if anything; a waiver at fault accepts nothing.
fn fault(build: &Build, packs: &Packs, today: Today, waiver: &Waiver, matching: &[Signal]) -> Option<Slip> {
    let part = build.part(waiver.part);
    let at = |fact: FactId| part.given(fact).map_or_else(|| part.head.clone(), |given| given.at.clone());
    let rule = &waiver.rule;
    if packs.rule(rule).is_none() {
        let slip = Slip::new("waiver/unknown-rule", at(w::RULE), format!("no rule is called `{rule}`"));
        let near = vocabulary::nearest(rule, packs.rules.iter().map(|rule| rule.name.as_str()));
        return Some(match near {
            Some(near) => slip.help(format!("did you mean `{near}`?")).mend(
                format!("write {near}"),
                at(w::RULE),
                format!("\"{near}\""),
            ),
            None => slip.help("take the waiver out, or name the rule of the finding that it accepts"),
        });
    }
    if waiver.reason.is_none() || waiver.by.is_none() {
        let lacks = if waiver.reason.is_none() { "a reason" } else { "a person" };
        return Some(
            Slip::new("waiver/not-answered-for", part.head.clone(), format!("this waiver of `{rule}` lacks {lacks}"))
                .help("write reason=\"…\" and by=\"…\": somebody answers for it"),
        );
    }
    if let Some(until) = waiver.until.filter(|until| *until < today.date()) {
        return Some(
            Slip::new("waiver/run-out", at(w::UNTIL), format!("this waiver of `{rule}` ran out on {until}"))
                .help("mend what it accepts, or look at it again and set a new day"),
        );
    }
    if matching.is_empty() {
        let on = waiver.on.as_deref().map_or("the build".to_owned(), |on| format!("`{on}`"));
        return Some(
            Slip::new("waiver/matches-nothing", part.head.clone(), format!("nothing on {on} is found by `{rule}`"))
                .help("take the waiver out, or correct on= to the part of the finding"),
        );
    }
    if waiver.evidence.is_none() && matching.contains(&Signal::Danger) {
        return Some(
            Slip::new(
                "waiver/no-evidence",
                part.head.clone(),
                format!("`{rule}` is a danger: its waiver lacks evidence"),
            )
            .help("write evidence=\"…\": the paper that shows why it is acceptable"),
        );
    }
    None
}
