//! A rule as a page to read: what it asks, when, why, and where it comes from.

use crate::finding_terminal::source_line;
use crate::sanitise::prose;
use crate::sheet::{Sheet, signal_style};
use crate::words;
use crate::{Style, visible};
use owo_colors::Style as Paint;
use rules::Rule;

/// How an example of a rule comes out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ExampleOutcome {
    /// The rule fails on it.
    Fails,
    /// The rule is met.
    Holds,
    /// An entry is missing.
    Open,
    /// The rule does not apply.
    NotApplicable,
}

/// An example of a rule.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Example {
    /// What it shows.
    pub title: String,
    /// How it comes out.
    pub outcome: ExampleOutcome,
    /// What is written in it.
    pub text: String,
}

/// A rule with the texts that its compiled form does not keep.
#[derive(Clone, Debug)]
pub struct RulePage<'a> {
    /// The rule.
    pub rule: &'a Rule,
    /// The word of the part kind that it is about.
    pub about: &'a str,
    /// When it applies, as its pack writes it.
    pub when: Option<&'a str>,
    /// What must hold, as its pack writes it.
    pub must: Option<&'a str>,
    /// What it tells the builder, as its pack writes it.
    pub tell: &'a str,
    /// The remedy, as its pack writes it.
    pub remedy: &'a str,
    /// Its examples.
    pub examples: &'a [Example],
}

/// A rule's page.
pub fn why(page: &RulePage, style: Style) -> String {
    let rule = page.rule;
    let mut sheet = Sheet::new(style);
    sheet.heading(&visible(&rule.name), Paint::new().bold());
    sheet.paragraph(&prose(&rule.title), "", "");
    sheet.gap();
    let signal = sheet.paint(rule.signal.word(), signal_style(rule.signal));
    let meaning = words::meaning(rule.signal);
    match sheet.options() {
        Some(_) => sheet.line(&format!("  {:<13}{signal}: {meaning}", "Signal word")),
        None => sheet.field("", "Signal word", &format!("{signal}, which means: {meaning}")),
    }
    sheet.field("  ", "Pack", &visible(&rule.pack));
    if !rule.classes.is_empty() {
        sheet.field("  ", "For", &visible(&rule.classes.join(", ")));
    }
    sheet.field("  ", "About", &format!("every {}", visible(page.about)));
    if rule.found_while_reading {
        sheet.field("  ", "Found", "while the specification is read");
    }
    sheet.field("  ", "When", &prose(page.when.unwrap_or_default()));
    sheet.field("  ", "Must hold", &prose(page.must.unwrap_or_default()));
    for value in &rule.values {
        sheet.field("  ", "Value", &format!("{}: {}", visible(&value.name), prose(&value.help)));
        for (region, _, text) in &value.figures {
            sheet.field("  ", "", &format!("{} for {}", prose(text), words::region_words(*region)).replace("for everywhere", "everywhere"));
        }
    }
    sheet.gap();
    sheet.field("  ", "It says", &prose(page.tell));
    sheet.field("  ", "Why", &prose(&rule.why));
    sheet.field("  ", "Do this", &prose(page.remedy));
    sheet.field("  ", "Caution", &prose(rule.caution.as_deref().unwrap_or_default()));
    if let Some(follows) = &rule.follows {
        let text = format!("it only follows when {} fails on the same part, and then stands under it", visible(follows));
        sheet.field("  ", "Follows", &text);
    }
    let sources: Vec<String> = rule
        .sources
        .iter()
        .map(|source| {
            let regions: Vec<String> =
                source.regions.iter().map(|region| words::region_words(*region).to_owned()).collect();
            let line = source_line(&sheet, source);
            if regions.is_empty() { line } else { format!("{line}; for {}", words::joined(&regions, "and")) }
        })
        .collect();
    sheet.gap();
    sheet.fields("  ", "Source", sources);
    if !page.examples.is_empty() {
        sheet.heading("Examples", Paint::new().bold());
        for example in page.examples {
            self::example(&mut sheet, example);
        }
    }
    sheet.gap();
    sheet.paragraph(&format!("CAUTION: {}", words::CAUTION), "", "");
    sheet.finish()
}

fn example(sheet: &mut Sheet, example: &Example) {
    let outcome = match example.outcome {
        ExampleOutcome::Fails => "fails",
        ExampleOutcome::Holds => "is met",
        ExampleOutcome::Open => "stays undecided",
        ExampleOutcome::NotApplicable => "does not apply",
    };
    sheet.gap();
    sheet.paragraph(&format!("{} (the rule {outcome})", prose(&example.title)), "  ", "  ");
    // The text of an example keeps its lines: they are what a builder would write.
    for line in example.text.lines() {
        let shown = visible(&line.replace('\t', "    ")).into_owned();
        sheet.line(&format!("      {shown}"));
    }
}
