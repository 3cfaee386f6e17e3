//! `working`: a part's facts with their working.

use super::{complain_unknown, complain_unread, nearest};
use crate::command_line::Working;
use crate::files::Files;
use crate::output::Output;
use crate::status::Status;
use design::{Build, Gaps, PartId, Reader};
use report::{FactOrigin, FactRow, PartWorking, Style};
use rules::ReviewOptions;
use rules::pack::Packs;
use rules::review::{fact_used, gap_words, judge_build};
use spec::text::{BlockCache, Lines};
use spec::{Loader, Value};
use vocabulary::{Absent, FactSpec};

/// Shows the facts of one part, or one of them.
pub fn run(arguments: &Working, style: Style, output: &mut Output) -> Status {
    let (files, name) = Files::of(&arguments.spec);
    if let Err(fault) = files.load(None, &name) {
        complain_unread(&arguments.spec, &fault, output);
        return Status::Unable;
    }
    let build = design::link(spec::read(&files, &name, &mut BlockCache::new()));
    let found = parts(&build, &arguments.part);
    let part = match found.as_slice() {
        [only] => *only,
        [] => {
            unknown_part(&build, &arguments.part, output);
            return Status::Unable;
        }
        several => {
            let titles: Vec<_> = several.iter().map(|part| report::visible(&build.part(*part).title)).collect();
            output.complain(&format!(
                "\"{}\" could be each of these: {}. Name one of them in full.",
                report::visible(&arguments.part),
                titles.join("; ")
            ));
            return Status::Unable;
        }
    };
    let kind = vocabulary::part(build.part(part).kind);
    let facts: Vec<&FactSpec> = match &arguments.fact {
        None => kind.facts().iter().collect(),
        Some(wanted) => kind.fact(&wanted.replace('_', "-")).into_iter().collect(),
    };
    if facts.is_empty()
        && let Some(wanted) = &arguments.fact
    {
        let near = nearest(wanted, kind.facts().iter().map(|fact| fact.name));
        let look = "Leave the fact out to see every fact of the part.";
        complain_unknown(&format!("fact of a {} called", kind.word), wanted, &near, look, output);
        return Status::Unable;
    }
    output.print(&report::working(&rows(&build, part, &facts), style));
    Status::Done
}

/// The parts that someone may mean: by title, by name, or by kind.
fn parts(build: &Build, wanted: &str) -> Vec<PartId> {
    let matching = |wanted: &dyn Fn(&design::Part) -> bool| -> Vec<PartId> {
        let found: Vec<PartId> = build.parts().filter(|(_, part)| wanted(part)).map(|(id, _)| id).collect();
        // A worked part that stands for a thing is called as the thing: its key alone means it.
        let stands_for_another = |part: PartId| {
            let thing = build.circuitry().written(part);
            thing != part && found.contains(&thing)
        };
        found.iter().copied().filter(|part| !stands_for_another(*part)).collect()
    };
    let by_title = matching(&|part| *part.title == *wanted || *part.key == *wanted);
    if !by_title.is_empty() {
        return by_title;
    }
    let by_name = matching(&|part| part.name.as_deref() == Some(wanted));
    if !by_name.is_empty() {
        return by_name;
    }
    matching(&|part| vocabulary::part(part.kind).word == wanted)
}

fn unknown_part(build: &Build, wanted: &str, output: &mut Output) {
    let known: Vec<&str> =
        build.parts().flat_map(|(_, part)| [part.name.as_deref(), Some(&*part.title)]).flatten().collect();
    let near = nearest(wanted, known.iter().copied());
    let look = "Name a part as it is named in the specification, or by its kind and name: 'circuit \"house main\"'.";
    complain_unknown("part", wanted, &near, look, output);
}

/// The facts of a part, the known ones first.
fn rows(build: &Build, part: PartId, facts: &[&FactSpec]) -> PartWorking {
    let today = rules::Today::Asked(crate::surroundings::today);
    let units = judge_build(build, &Packs::default(), ReviewOptions { today, draft: true }).units;
    let mut reader = Reader::new(build);
    let mut rows: Vec<FactRow> = Vec::new();
    for spec in facts {
        // What differs by mode has a row for each.
        for case in reader.cases_among(spec.axes) {
            let mut used = fact_used(&mut reader, part, spec.id, case, units);
            let title = reader.cases().title(case, spec.axes);
            if !title.is_empty() {
                used.fact = format!("{}, {title}", used.fact);
            }
            let origin = match reader.fact(part, spec.id, case) {
                Err(gaps) => FactOrigin::Unknown { missing: missing(build, &gaps) },
                Ok(_) => origin(build, part, spec),
            };
            rows.push(FactRow { fact: used, origin, help: spec.help.to_owned() });
        }
    }
    rows.sort_by_key(|row| matches!(row.origin, FactOrigin::Unknown { .. }));
    PartWorking { part: build.part(part).title.to_string(), place: place(build, part), facts: rows }
}

fn origin(build: &Build, part: PartId, spec: &FactSpec) -> FactOrigin {
    let written = build.part(part).given(spec.id).is_some_and(|given| given.value != Value::Unknown);
    match (spec.given, written, spec.absent) {
        (false, ..) => FactOrigin::WorkedOut,
        (true, true, _) => FactOrigin::Given,
        (true, false, Absent::Assume { .. }) => FactOrigin::Assumed,
        (true, false, _) => FactOrigin::Meant,
    }
}

fn place(build: &Build, part: PartId) -> String {
    let head = &build.part(part).head;
    match build.files.get(head.file as usize) {
        Some(file) => {
            let (line, column) = Lines::new(&file.text).line_and_column(&file.text, head.bytes.start);
            format!("{}:{line}:{column}", file.name)
        }
        None => String::from("the build as a whole"),
    }
}

/// What would settle a fact, in words.
fn missing(build: &Build, gaps: &Gaps) -> Vec<String> {
    gaps.0.iter().map(|any| any.0.iter().map(|gap| gap_words(build, gap)).collect::<Vec<_>>().join(" or ")).collect()
}
