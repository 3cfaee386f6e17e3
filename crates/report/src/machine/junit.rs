//! Test results as XML, in the form that goes by the name of JUnit; no standard describes it, so only the elements and
//! attributes that its readers share are used: a suite for each build, a case for each check that does not hold.

use super::common::{self, Files};
use super::{Build, Context, Unread};
use crate::sanitise::{prose, sentence};
use crate::{visible, words};
use quick_xml::Writer;
use quick_xml::events::BytesText;
use rules::finding::Finding;
use std::io;

/// The name of the whole run.
const RUN: &str = "coachwright";

pub(super) fn head() -> String {
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites name=\"{RUN}\">\n")
}

pub(super) fn tail() -> String {
    String::from("</testsuites>\n")
}

/// How a case came out.
enum Came {
    Failed,
    Skipped(&'static str),
    Error,
    Held,
}

/// One case of a suite.
struct Case {
    name: String,
    /// What a reader groups cases by.
    class: String,
    file: String,
    line: usize,
    came: Came,
    /// Signal word, or why a case has none.
    kind: String,
    message: String,
    /// The lines of the text.
    text: Vec<String>,
}

/// The suite of a build.
pub(super) fn build(context: &Context, build: &Build) -> String {
    let files = Files::new(build);
    let review = build.review;
    let mut cases = Vec::new();
    for finding in &review.failed {
        cases.push(case(&files, finding, Came::Failed));
    }
    for finding in &review.undecided {
        let held =
            if common::holds_undecided(review, finding) { "Undecided, which holds the build: " } else { "Undecided: " };
        cases.push(case(&files, finding, Came::Skipped(held)));
    }
    cases.extend(review.waived.iter().map(|finding| case(&files, finding, Came::Skipped("Waived: "))));
    let held = words::held(review, context.hold_at);
    if cases.is_empty() {
        cases.push(Case {
            name: format!("{} that apply", words::counted(review.counts.held, "check", "checks")),
            class: common::plain_path(build.path).to_owned(),
            file: common::plain_path(build.path).to_owned(),
            line: 1,
            came: Came::Held,
            kind: String::new(),
            message: String::new(),
            text: Vec::new(),
        });
    }
    let properties = [
        ("build", review.build.as_deref().map(prose).unwrap_or_default()),
        ("stage", words::stage_word(review.stage).to_owned()),
        ("held", held.held.to_string()),
        ("reason", held.reason),
        ("caution", words::CAUTION.to_owned()),
    ];
    suite(common::plain_path(build.path), &properties, &cases)
}

/// The suite of a build that could not be read.
pub(super) fn unread(unread: &Unread) -> String {
    let path = common::plain_path(&unread.path);
    let case = Case {
        name: String::from("the build can be read"),
        class: path.to_owned(),
        file: path.to_owned(),
        line: 1,
        came: Came::Error,
        kind: String::from("unread"),
        message: sentence(&unread.message),
        text: vec![sentence(&unread.message), String::from("Nothing of this build was checked.")],
    };
    suite(path, &[("caution", words::CAUTION.to_owned())], &[case])
}

fn case(files: &Files, finding: &Finding, came: Came) -> Case {
    let region = files.region(&finding.place);
    let path = files.path(&finding.place);
    let (line, column) = region.map_or((1, 1), |region| (region.start_line, region.start_column));
    let said = common::said(finding);
    let fields = [
        ("Do this", common::to_do(finding)),
        ("Why", prose(&finding.why)),
        ("Place", format!("{path}:{line}:{column}")),
        ("Circumstances", finding.circumstances.iter().map(|line| prose(line)).collect::<Vec<_>>().join("; ")),
        ("Waived", common::justification(finding).unwrap_or_default()),
        ("Sources", finding.sources.iter().map(common::source_words).collect::<Vec<_>>().join("; ")),
        ("Caution", prose(finding.caution.as_deref().unwrap_or_default())),
    ];
    let mut text = vec![said.clone()];
    // What only follows from a failed check is no case of its own, as it is no finding of its own.
    text.extend(finding.follow.iter().map(|follow| {
        format!(
            "From this follows, by rule {}, for {}: {}",
            follow.rule,
            prose(&follow.part),
            sentence(&follow.message)
        )
    }));
    text.extend(fields.iter().filter(|(_, words)| !words.is_empty()).map(|(label, words)| format!("{label}: {words}")));
    let message = match &came {
        Came::Skipped("Waived: ") => format!("Waived: {}", common::justification(finding).unwrap_or_default()),
        Came::Skipped(before) => format!("{before}{} {}", said, common::to_do(finding)).trim_end().to_owned(),
        _ => said,
    };
    Case {
        name: format!("{}: {}", finding.rule, finding.part),
        class: common::plain_path(path).to_owned(),
        file: path.to_owned(),
        line,
        came,
        kind: finding.signal.word().to_owned(),
        message,
        text,
    }
}

/// A text as XML can hold it. Of what is not a character of XML 1.0 (production 2), control characters are shown as escapes,
/// and the two code points that stand for no character are replaced.
fn xml(text: &str) -> String {
    visible(text).replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}")
}

fn suite(name: &str, properties: &[(&str, String)], cases: &[Case]) -> String {
    let mut writer = Writer::new_with_indent(Vec::new(), b' ', 2);
    // Writing to memory does not fail; were it to, the document would end here and its reader would refuse it.
    match write_suite(&mut writer, name, properties, cases) {
        Ok(()) => format!("{}\n", String::from_utf8_lossy(&writer.into_inner())),
        Err(fault) => format!("<fault>{fault}"),
    }
}

fn write_suite(
    writer: &mut Writer<Vec<u8>>,
    name: &str,
    properties: &[(&str, String)],
    cases: &[Case],
) -> io::Result<()> {
    let number = |came: fn(&Came) -> bool| cases.iter().filter(|case| came(&case.came)).count().to_string();
    writer
        .create_element("testsuite")
        .with_attributes([
            ("name", xml(name).as_str()),
            ("tests", cases.len().to_string().as_str()),
            ("failures", number(|came| matches!(came, Came::Failed)).as_str()),
            ("errors", number(|came| matches!(came, Came::Error)).as_str()),
            ("skipped", number(|came| matches!(came, Came::Skipped(_))).as_str()),
        ])
        .write_inner_content(|writer| {
            writer.create_element("properties").write_inner_content(|writer| {
                for (name, value) in properties {
                    writer
                        .create_element("property")
                        .with_attributes([("name", *name), ("value", xml(value).as_str())])
                        .write_empty()?;
                }
                Ok(())
            })?;
            cases.iter().try_for_each(|case| write_case(writer, case))
        })?;
    Ok(())
}

fn write_case(writer: &mut Writer<Vec<u8>>, case: &Case) -> io::Result<()> {
    let (name, class, file, line) = (xml(&case.name), xml(&case.class), xml(&case.file), case.line.to_string());
    let element = writer.create_element("testcase").with_attributes([
        ("name", name.as_str()),
        ("classname", class.as_str()),
        ("file", file.as_str()),
        ("line", line.as_str()),
    ]);
    let tag = match case.came {
        Came::Held => return element.write_empty().map(drop),
        Came::Failed => "failure",
        Came::Error => "error",
        Came::Skipped(_) => "skipped",
    };
    let lines: Vec<String> = case.text.iter().map(|line| xml(line)).collect();
    element.write_inner_content(|writer| {
        writer
            .create_element(tag)
            .with_attributes([("message", xml(&case.message).as_str()), ("type", case.kind.as_str())])
            .write_text_content(BytesText::new(&lines.join("\n")))?;
        Ok(())
    })?;
    Ok(())
}
