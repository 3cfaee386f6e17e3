//! A review as JSON by our own schema, `schema/review.schema.json`.

use crate::places::{Places, Position};
use crate::words;
use rules::Signal;
use rules::finding::{FactUsed, Finding, Mend, Outcome, Place, Review};
use rules::rule::RuleSource;
use serde_json::{Map, Value, json};

/// The version of the schema. A new number when a reader of the old one could be misled.
pub const VERSION: u32 = 1;

/// A review as JSON. `hold_at` is the signal word at which a failed check holds the build.
pub fn json(review: &Review, hold_at: Signal) -> Value {
    let places = Places::new(&review.files);
    let held = words::held(review, hold_at);
    json!({
        "version": VERSION,
        "build": review.build,
        "stage": words::stage_word(review.stage),
        "regions": review.regions.iter().map(|region| region.word()).collect::<Vec<_>>(),
        "files": review.files.iter().map(|file| file.name.as_str()).collect::<Vec<_>>(),
        "held": { "held": held.held, "hold-at": hold_at.word(), "reason": held.reason },
        "counts": {
            "failed": by_word(review.counts.failed),
            "undecided": by_word(review.counts.undecided),
            "held": review.counts.held,
            "waived": review.counts.waived,
            "known": review.counts.known,
            "not-applicable": review.counts.not_applicable,
        },
        "findings": review.failed.iter().map(|failed| finding(&places, failed)).collect::<Vec<_>>(),
        "undecided": review.undecided.iter().map(|open| finding(&places, open)).collect::<Vec<_>>(),
        "waived": review.waived.iter().map(|waived| finding(&places, waived)).collect::<Vec<_>>(),
        "settle": review
            .settle
            .iter()
            .map(|entry| with(json!({ "entry": entry.entry, "checks": entry.checks }), place(&places, &entry.place)))
            .collect::<Vec<_>>(),
        "caution": words::CAUTION,
    })
}

fn by_word(counts: [usize; 4]) -> Value {
    let words = words::WORST_FIRST.iter().map(|signal| {
        let count = counts.get(*signal as usize).copied().unwrap_or(0);
        (signal.word().to_owned(), Value::from(count))
    });
    Value::Object(words.collect())
}

fn finding(places: &Places, finding: &Finding) -> Value {
    let mut made = json!({
        "rule": &*finding.rule,
        "title": finding.title,
        "signal": finding.signal.word(),
        "part": finding.part,
        "part-key": finding.part_key,
        "message": finding.message,
        "why": finding.why,
        "remedy": finding.remedy,
        "caution": finding.caution,
        "facts": finding.facts.iter().map(fact).collect::<Vec<_>>(),
        "circumstances": finding.circumstances,
        "region": finding.region.map(|region| region.word()),
        "case": finding.case,
        "sources": finding.sources.iter().map(source).collect::<Vec<_>>(),
        "related": finding
            .related
            .iter()
            .map(|other| with(json!({ "label": other.label }), place(places, &other.place)))
            .collect::<Vec<_>>(),
        "mend": finding.mend.as_ref().map(|offered| mend(places, offered)),
        "follow": finding.follow.iter().map(|follow| self::finding(places, follow)).collect::<Vec<_>>(),
        "fingerprint": finding.fingerprint,
    });
    made = with(made, place(places, &finding.place));
    made = with(
        made,
        match &finding.outcome {
            // A margin that is no number has no place in JSON and says nothing to its reader.
            Outcome::Fails { margin } => {
                json!({ "outcome": "fails", "margin": margin.filter(|margin| margin.is_finite()) })
            }
            Outcome::Undecided { missing } => json!({
                "outcome": "undecided",
                "missing": missing
                    .iter()
                    .map(|one| with(json!({ "any-of": one.alternatives }), place(places, &one.place)))
                    .collect::<Vec<_>>(),
            }),
        },
    );
    if let Some(waiver) = &finding.waived {
        let waived = json!({
            "reason": waiver.reason,
            "by": waiver.by,
            "until": waiver.until,
            "evidence": waiver.evidence,
        });
        made = with(made, json!({ "waived": with(waived, place(places, &waiver.place)) }));
    }
    made
}

fn fact(fact: &FactUsed) -> Value {
    json!({
        "part": fact.part,
        "fact": fact.fact,
        "value": fact.value,
        "number": fact.number.filter(|number| number.is_finite()),
        "dimension": fact.dimension,
        "working": fact
            .working
            .iter()
            .map(|step| json!({
                "text": step.text,
                "source": step.source,
                "assumed": step.assumed,
                "depth": step.depth,
            }))
            .collect::<Vec<_>>(),
    })
}

fn source(source: &RuleSource) -> Value {
    json!({
        "document": source.document,
        "place": source.place,
        "edition": source.edition,
        "mark": source.mark.word(),
        "address": source.address,
        "note": source.note,
        "regions": source.regions.iter().map(|region| region.word()).collect::<Vec<_>>(),
    })
}

fn mend(places: &Places, mend: &Mend) -> Value {
    with(json!({ "title": mend.title, "text": mend.text }), place(places, &mend.place))
}

/// The file, the start and the end of a place; all null when it lies in no file that was read.
fn place(places: &Places, place: &Place) -> Value {
    let position =
        |position: Position| json!({ "line": position.line, "column": position.column, "byte": position.byte });
    let (start, end) = match places.ends(place) {
        Some((start, end)) => (position(start), position(end)),
        None => (Value::Null, Value::Null),
    };
    json!({ "file": places.file(place).map(|file| file.name.as_str()), "start": start, "end": end })
}

/// Both objects in one.
fn with(first: Value, second: Value) -> Value {
    let mut all = Map::new();
    for part in [first, second] {
        if let Value::Object(members) = part {
            all.extend(members);
        }
    }
    Value::Object(all)
}
