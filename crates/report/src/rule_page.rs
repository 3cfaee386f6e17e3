//! A rule as a page to read: what it asks, when, why, and where it comes from.

use crate::finding_terminal::source_line;
use crate::sanitise::prose;
use crate::sheet::{LABEL, Sheet, signal_style};
use crate::words;
use crate::{Style, visible};
use owo_colors::Style as Paint;
use rules::Region;
use rules::pack::{Action, Example, Expected, Fixture, RuleSheet};

/// A rule with the texts that its compiled form does not keep.
#[derive(Clone, Debug)]
pub struct RulePage<'a> {
    /// The rule with its examples.
    pub sheet: &'a RuleSheet,
    /// The word of the part kind that it is about.
    pub about: &'a str,
    /// The specifications of its file that examples start from.
    pub fixtures: &'a [Fixture],
    /// What it tells the builder, as its pack writes it.
    pub tell: &'a str,
    /// The remedy, as its pack writes it.
    pub remedy: &'a str,
}

/// A rule's page.
pub fn why(page: &RulePage, style: Style) -> String {
    let rule = &page.sheet.rule;
    let mut sheet = Sheet::new(style);
    sheet.heading(&visible(&rule.name), Paint::new().bold());
    sheet.paragraph(&prose(&rule.title), "", "");
    sheet.gap();
    head(&mut sheet, page);
    sheet.gap();
    sheet.field("  ", "It says", &prose(page.tell));
    sheet.field("  ", "Why", &prose(&rule.why));
    sheet.field("  ", "Do this", &prose(page.remedy));
    sheet.field("  ", "Caution", &prose(rule.caution.as_deref().unwrap_or_default()));
    if !rule.follows.is_empty() {
        let leaders = visible(&rule.follows.join(" or ")).into_owned();
        let text = format!("when {leaders} fails on the same part, this only follows from it and stands under it");
        sheet.field("  ", "Follows", &text);
    }
    sheet.gap();
    let sources: Vec<String> = rule
        .sources
        .iter()
        .map(|source| match regions(&source.regions) {
            None => source_line(&sheet, source),
            Some(regions) => format!("{}; for {regions}", source_line(&sheet, source)),
        })
        .collect();
    sheet.fields("  ", "Source", sources);
    if !page.sheet.examples.is_empty() {
        sheet.heading("Examples", Paint::new().bold());
        for example in &page.sheet.examples {
            self::example(&mut sheet, example);
        }
    }
    let used =
        |fixture: &&Fixture| page.sheet.examples.iter().any(|example| example.on.as_deref() == Some(&fixture.name));
    for fixture in page.fixtures.iter().filter(used) {
        sheet.heading(&format!("Where the examples start: {}", prose(&fixture.name)), Paint::new().bold());
        written(&mut sheet, "", &fixture.text.text);
    }
    sheet.gap();
    sheet.paragraph(&format!("CAUTION: {}", words::CAUTION), "", "");
    sheet.finish()
}

fn head(sheet: &mut Sheet, page: &RulePage) {
    let rule = &page.sheet.rule;
    let signal = sheet.paint(rule.signal.word(), signal_style(rule.signal));
    let meaning = words::meaning(rule.signal);
    match sheet.options() {
        Some(_) => sheet.line(&format!("  {:<LABEL$}{signal}: {meaning}", "Signal word")),
        None => sheet.field("", "Signal word", &format!("{signal}, which means: {meaning}")),
    }
    sheet.field("  ", "Pack", &visible(&rule.pack));
    sheet.field("  ", "Vehicles", &visible(&rule.classes.join(", ")));
    sheet.field("  ", "About", &format!("every {}", visible(page.about)));
    if rule.found_while_reading {
        sheet.field("  ", "Found", "while the specification is read and linked");
    }
    let written =
        |text: &Option<rules::pack::Embedded>| text.as_ref().map(|text| prose(&text.text)).unwrap_or_default();
    sheet.literal("  ", "Applies when", &written(&page.sheet.when));
    sheet.literal("  ", "Must hold", &written(&page.sheet.must));
    for value in &rule.values {
        sheet.field("  ", "Value", &format!("{}: {}", visible(&value.name), prose(&value.help)));
        for (region, _, text) in &value.figures {
            sheet.field("  ", "", &format!("{} for {}", prose(text), words::region_words(*region)));
        }
    }
}

fn regions(regions: &[Region]) -> Option<String> {
    let words: Vec<String> = regions.iter().map(|region| words::region_words(*region).to_owned()).collect();
    (!words.is_empty()).then(|| words::joined(&words, "and"))
}

fn example(sheet: &mut Sheet, example: &Example) {
    let outcome = match example.expected {
        Expected::Fails => "the rule fails",
        Expected::Holds => "the rule is met",
        Expected::Open => "it stays undecided",
        Expected::NotApplicable => "the rule does not apply",
    };
    let missing =
        example.missing.as_ref().map_or_else(String::new, |(name, _)| format!(", for want of {}", visible(name)));
    sheet.gap();
    sheet.paragraph(&format!("{}: {outcome}{missing}", prose(&example.title)), "  ", "  ");
    if let Some(on) = &example.on {
        sheet.field("    ", "In", &prose(on));
    }
    if let Some(basis) = example.basis {
        sheet.field("    ", "Judged for", words::region_words(basis));
    }
    for step in &example.steps {
        match &step.action {
            Action::Change { from, to } => {
                sheet.literal("    ", "Change", &prose(from));
                sheet.literal("    ", "to", &prose(to));
            }
            Action::Remove(text) => sheet.literal("    ", "Take away", &prose(text)),
            Action::Add(text) => written(sheet, "Add", text),
        }
    }
}

/// What a builder would write, with its lines as they are.
fn written(sheet: &mut Sheet, label: &str, text: &str) {
    let block = label.is_empty();
    for (index, line) in text.trim_end().lines().enumerate() {
        let line = visible(&line.replace('\t', "    ")).into_owned();
        let label = if index == 0 { label } else { "" };
        match sheet.options() {
            Some(_) if block => sheet.line(&format!("    {line}")),
            Some(_) => sheet.line(&format!("    {label:<LABEL$}{line}")),
            None if label.is_empty() => sheet.line(&line),
            None => sheet.line(&format!("{label}: {line}")),
        }
    }
}
