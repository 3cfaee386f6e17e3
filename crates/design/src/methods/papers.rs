//! Certificates, tests of gas lines and when they are due again, what labels name, and which supplies and openings lines have.

use super::battery::both;
use super::{no_solution, parts, space};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use vocabulary::{FactId, fact as f, kind};

fn certificates(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let list = reader.build().of_kind(kind::CERTIFICATE);
    Ok(parts(list.members.iter().copied(), list.complete))
}

fn past_its_date(reader: &mut Reader<'_>, certificate: PartId, case: CaseId) -> Outcome {
    super::gas::pieces::past(reader, certificate, f::certificate::DUE, case)
}

fn said(reader: &Reader<'_>, part: PartId, fact: FactId) -> Outcome {
    super::is_said(reader, part, fact).map(Fact::Flag)
}

/// The approval of the appliance behind `feeds`.
fn approval_behind(reader: &mut Reader<'_>, feeds: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    let thing = super::gas::appliances::named(build, feeds).ok_or_else(|| Gaps::one(Gap::Unread(feeds)))?;
    match super::fact_of(build, thing, "approval") {
        Some(fact) => said(reader, thing, fact),
        None => no_solution(feeds, f::feeds::APPROVAL_SAID),
    }
}

fn joined_supplies(reader: &mut Reader<'_>, line: PartId, _: CaseId) -> Outcome {
    said(reader, line, f::gas_line::ALSO_FROM)
}

/// Whether the two supplies of a line stand in different spaces.
fn supplies_apart(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    let supplies = [f::gas_line::FROM, f::gas_line::ALSO_FROM].map(|fact| match reader.fact(line, fact, case) {
        Ok(Fact::Part(supply)) => space::of(reader, supply, case),
        Ok(_) => no_solution(line, fact),
        Err(gaps) => Err(gaps),
    });
    let [first, second] = supplies;
    let (first, second) = both(first, second)?;
    Ok(Fact::Flag(first != second))
}

fn test_runs_out(reader: &mut Reader<'_>, line: PartId, _: CaseId) -> Outcome {
    said(reader, line, f::gas_line::TEST_DUE)
}

fn test_past_its_date(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    super::gas::pieces::past(reader, line, f::gas_line::TEST_DUE, case)
}

/// The months of a date, year first, since the year 0.
fn months(date: &str) -> Option<i32> {
    let mut numbers = date.split('-').map(|number| number.parse::<i32>().ok());
    Some(numbers.next()?? * 12 + numbers.next()??)
}

/// The months from a line's test to the newest revision, by the calendar: a test is good to the end of a month.
fn months_since_test(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    let tested = reader.fact(line, f::gas_line::TESTED, case)?;
    let newest = super::gas::pieces::newest_revision(reader, case)?;
    match tested {
        Fact::Text(tested) => match months(&newest).zip(months(&tested)) {
            Some((newest, tested)) => Ok(Fact::Number(f64::from((newest - tested).max(0)))),
            None => no_solution(line, f::gas_line::MONTHS_SINCE_TEST),
        },
        _ => no_solution(line, f::gas_line::MONTHS_SINCE_TEST),
    }
}

fn approval_said(reader: &mut Reader<'_>, heater: PartId, _: CaseId) -> Outcome {
    said(reader, heater, f::heater::APPROVAL)
}

fn mattress_labelled(reader: &mut Reader<'_>, berth: PartId, _: CaseId) -> Outcome {
    said(reader, berth, f::berth::MATTRESS_LABEL)
}

fn runs_out(reader: &mut Reader<'_>, certificate: PartId, _: CaseId) -> Outcome {
    said(reader, certificate, f::certificate::DUE)
}

/// What the labels of heaters for liquefied gas in vehicles and boats name.
const MOTION_STANDARD: &str = "624";

fn made_for_motion(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    match reader.fact(heater, f::heater::TESTED_TO, case)? {
        Fact::Text(label) => Ok(Fact::Flag(label.contains(MOTION_STANDARD))),
        _ => no_solution(heater, f::heater::MADE_FOR_MOTION),
    }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::build::CERTIFICATES, Each(certificates)),
        (f::certificate::PAST_ITS_DATE, Each(past_its_date)),
        (f::certificate::RUNS_OUT, Each(runs_out)),
        (f::heater::APPROVAL_SAID, Each(approval_said)),
        (f::berth::MATTRESS_LABELLED, Each(mattress_labelled)),
        (f::feeds::APPROVAL_SAID, Each(approval_behind)),
        (f::gas_line::JOINED_SUPPLIES, Each(joined_supplies)),
        (f::gas_line::SUPPLIES_APART, Each(supplies_apart)),
        (f::gas_line::TEST_RUNS_OUT, Each(test_runs_out)),
        (f::gas_line::TEST_PAST_ITS_DATE, Each(test_past_its_date)),
        (f::gas_line::MONTHS_SINCE_TEST, Each(months_since_test)),
        (f::heater::MADE_FOR_MOTION, Each(made_for_motion)),
    ]
}
