//! Every draft is one that a review does not hold, whatever was answered.

use super::answers::{Answers, QUESTIONS};
use super::{draft, open_entries};
use rules::{ReviewOptions, Signal, Today};
use spec::SingleText;

/// The answers of a case: the words of each question, in their order.
fn answers(words: &[&str]) -> Result<Answers, String> {
    let mut answers = Answers::default();
    for (question, word) in QUESTIONS.iter().zip(words) {
        (question.take)(word, &mut answers).map_err(|reason| format!("{} {word}: {reason}", question.option))?;
    }
    Ok(answers)
}

/// What is wrong with the draft of some answers; nothing, when all is well.
fn faults(answers: &Answers) -> Vec<String> {
    let text = draft::write(answers);
    let packs = crate::engine::shipped().unwrap_or_else(|fault| unreachable!("{fault}"));
    let options = ReviewOptions { today: Today::Is(jiff::civil::date(2026, 3, 14)), draft: false };
    let review = rules::review(&SingleText(&text), "a.build.kdl", packs, options);
    let mut faults: Vec<String> = review
        .failed
        .iter()
        .filter(|finding| finding.signal >= Signal::Warning)
        .map(|finding| format!("{} on {}: {}", finding.rule, finding.part, finding.message))
        .collect();
    if review.stage != rules::finding::Stage::Draft {
        faults.push(String::from("it is no draft"));
    }
    if review.regions.len() != answers.regions.len() {
        faults.push(String::from("it is reviewed by the rules of other regions"));
    }
    if spec::text::tidy(&text).as_ref() != Ok(&text) {
        faults.push(String::from("it is not tidy"));
    }
    if review.settle.is_empty() {
        faults.push(String::from("nothing is said to settle what is undecided"));
    }
    let unknown = text.lines().filter(|line| line.split("//").next().is_some_and(|line| line.contains("unknown")));
    let (open, unknown) = (open_entries(&text).len(), unknown.count());
    if open != unknown || open < 20 {
        faults.push(format!("{unknown} lines have unknown entries, and {open} say how to fill them in"));
    }
    if !faults.is_empty() {
        faults.push(format!("{answers:?}"));
    }
    faults
}

/// A choice out of some, different ones for each number and each question.
fn pick<'a>(choices: &[&'a str], state: &mut u64) -> &'a str {
    // A step of the multiplicative generator of Lehmer with the modulus 2^31 - 1: cases differ, and stay the same.
    *state = *state * 48_271 % 2_147_483_647;
    choices[(*state >> 8) as usize % choices.len()]
}

#[test]
fn no_draft_is_held() {
    let yes_no = ["yes", "no"];
    let mut wrong = Vec::new();
    let (mut tried, mut state) = (0, 1);
    for region in ["us", "eu", "uk", "au-nz", "eu uk au-nz"] {
        for voltage in ["12 V", "24 V", "48 V"] {
            for chemistry in ["LFP", "AGM", "gel", "flooded"] {
                for round in 0..8 {
                    let capacity = pick(&["20 Ah", "100 Ah", "200 Ah", "400 Ah"], &mut state);
                    // The first rounds have everything and nothing; the others something of each.
                    let flag = |state: &mut u64| match round {
                        0 => "yes",
                        1 => "no",
                        _ => pick(&yes_no, state),
                    };
                    let flags: Vec<&str> = (0..7).map(|_| flag(&mut state)).collect();
                    let [driving, solar, shore, gas, water, toilet, seats] = flags[..] else { unreachable!() };
                    let vehicle = if round == 0 {
                        "van"
                    } else {
                        pick(&["van", "trailer", "motor-caravan", "bus", "work-vehicle", "commercial-unit"], &mut state)
                    };
                    let power = pick(&["200 VA", "1000 VA", "2000 VA", "2500 VA", "5000 VA"], &mut state);
                    let inverter = if flag(&mut state) == "yes" { power } else { "no" };
                    let heater = if round == 1 { "no" } else { pick(&["no", "diesel", "petrol", "gas"], &mut state) };
                    let cooking =
                        if round == 1 { "no" } else { pick(&["no", "gas", "electric", "alcohol"], &mut state) };
                    let sleeps = if round == 1 { "0" } else { pick(&["0", "1", "4"], &mut state) };
                    let mut words = [
                        "Wren", vehicle, region, voltage, chemistry, capacity, driving, solar, inverter, shore, gas,
                        water, heater, cooking, sleeps, toilet, seats,
                    ];
                    // What is refused is answered as it is asked to be.
                    for (place, instead) in [(16, "no"), (13, "no"), (12, "no"), (8, "no")] {
                        if answers(&words).is_err() {
                            words[place] = instead;
                        }
                    }
                    match answers(&words) {
                        Ok(answers) => wrong.extend(faults(&answers)),
                        Err(reason) => wrong.push(format!("{words:?}: {reason}")),
                    }
                    tried += 1;
                }
            }
        }
    }
    assert_eq!(tried, 480);
    assert!(wrong.is_empty(), "{} lines:\n{}", wrong.len(), wrong[..wrong.len().min(60)].join("\n"));
}

#[test]
fn the_largest_and_the_smallest_of_everything_are_not_held() {
    for voltage in ["12 V", "24 V", "48 V"] {
        for chemistry in ["LFP", "AGM", "gel", "flooded"] {
            for region in ["us", "eu", "uk", "au-nz"] {
                for (capacity, inverter) in
                    [("400 Ah", if voltage == "12 V" { "2500 VA" } else { "5000 VA" }), ("20 Ah", "100 VA")]
                {
                    let words = [
                        "Wren", "van", region, voltage, chemistry, capacity, "yes", "yes", inverter, "yes", "yes",
                        "yes", "gas", "electric", "4", "yes", "yes",
                    ];
                    let answers = answers(&words).unwrap_or_else(|reason| unreachable!("{reason}"));
                    assert_eq!(faults(&answers), Vec::<String>::new());
                }
            }
        }
    }
}

#[test]
fn answers_that_make_no_sense_are_refused() {
    let good = [
        "Wren", "van", "eu", "12 V", "LFP", "100 Ah", "yes", "no", "no", "yes", "no", "yes", "diesel", "no", "2", "no",
        "no",
    ];
    assert!(answers(&good).is_ok());
    for (option, word, told) in [
        ("name", "", "write a name of 1 to 60 characters"),
        ("name", "a\u{1b}[2J", "without a line break"),
        ("vehicle", "vann", "did you mean van?"),
        ("vehicle", "boat", "write one of van, motor-caravan"),
        ("region", "", "write one of us, eu, uk, au-nz"),
        ("region", "france", "write one of us, eu"),
        ("region", "us eu", "write us alone"),
        ("voltage", "12", "12 V"),
        ("voltage", "13 V", "12 V, 24 V or 48 V"),
        ("voltage", "230 V", "12 V, 24 V or 48 V"),
        ("voltage", "-12 V", "-"),
        ("voltage", "12 Ah", "V"),
        ("chemistry", "lead", "write one of LFP, AGM, gel, flooded"),
        ("capacity", "100", "the unit is missing"),
        ("capacity", "0 Ah", "write 20 Ah or more"),
        ("capacity", "401 Ah", "add the others of the bank later"),
        ("capacity", "NaN Ah", "write a number and its unit"),
        ("capacity", "1e99 Ah", ""),
        ("driving", "maybe", "write yes or no"),
        ("inverter", "yes", "write its power, as 1000 VA, or no"),
        ("inverter", "1 VA", "write 100 VA or more, or no"),
        ("inverter", "3000 VA", "choose 24 V or 48 V"),
        ("inverter", "2000 VA", "write 1200 VA or less, or choose a larger battery"),
        ("heater", "gas", "say yes to gas"),
        ("heater", "wood", "write one of no, diesel"),
        ("cooking", "gas", "say yes to gas"),
        ("sleeps", "-1", "a whole number from 0 to 12"),
        ("sleeps", "1.5", "a whole number from 0 to 12"),
        ("sleeps", "13", "a whole number from 0 to 12"),
        ("seats", "x", "write yes or no"),
    ] {
        let mut words = good;
        let place = QUESTIONS.iter().position(|question| question.option == option).unwrap_or(usize::MAX);
        words[place] = word;
        let refused = answers(&words).err().unwrap_or_default();
        assert!(refused.starts_with(option) && refused.contains(told), "{option} {word}: {refused}");
    }
    for (changes, told) in [
        (&[("vehicle", "trailer"), ("seats", "yes")][..], "nobody travels in a trailer"),
        (&[("shore", "no"), ("cooking", "electric")], "say yes to shore"),
    ] {
        let mut words = good;
        for (option, word) in changes {
            let place = QUESTIONS.iter().position(|question| question.option == *option).unwrap_or(usize::MAX);
            words[place] = word;
        }
        let refused = answers(&words).err().unwrap_or_default();
        assert!(refused.contains(told), "{changes:?}: {refused}");
    }
}
