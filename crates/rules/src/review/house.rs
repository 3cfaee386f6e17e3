//! The house rules that a build names: compiled beside the packs of the tool, through the same door.

use crate::pack::{Packs, compile_beside};
use design::Build;
use spec::{RuleFile, Slip, Span};

/// All rules of a build.
pub struct House {
    /// The rules of the tool and of the house.
    pub packs: Packs,
    /// What is wrong with the rule files: none of the rules of such a file judges.
    pub slips: Vec<Slip>,
}

/// Joins the house rules of a build to packs. A file with faults is left out and told of; the others judge.
pub fn join(build: &Build, packs: &Packs) -> House {
    let mut house = House { packs: packs.clone(), slips: Vec::new() };
    for rule_file in &build.rule_files {
        match compiled(build, rule_file, &house.packs) {
            Ok(rules) => house.packs = house.packs.and(rules),
            Err(slip) => house.slips.push(*slip),
        }
    }
    house
}

fn compiled(build: &Build, rule_file: &RuleFile, beside: &Packs) -> Result<Packs, Box<Slip>> {
    let slip = |message: String| Slip::new("text/house-rules-unread", rule_file.asked.clone(), message);
    let number = match &rule_file.file {
        Ok(number) => *number,
        Err(why) => {
            let slip = slip(format!("these house rules cannot be read: {why}"));
            return Err(Box::new(slip.help("give the name of a rule file that is there, relative to this one")));
        }
    };
    let Some(file) = usize::try_from(number).ok().and_then(|number| build.files.get(number)) else {
        return Err(Box::new(slip("these house rules cannot be read".to_owned())));
    };
    compile_beside(&[(&file.name, &file.text)], beside).map_err(|faults| {
        let count = match faults.len() {
            1 => "a fault".to_owned(),
            many => format!("{many} faults"),
        };
        let mut slip = slip(format!("these house rules have {count}, and none of them judges this build"))
            .help("mend the rule file: coachwright prove names each fault in it");
        for fault in faults.into_iter().take(FAULTS_SHOWN) {
            let offset = |byte: usize| u32::try_from(byte).unwrap_or(u32::MAX);
            let at = Span { file: number, bytes: offset(fault.at.start)..offset(fault.at.end) };
            slip = slip.related(at, fault.message);
        }
        Box::new(slip)
    })
}

/// How many faults of a rule file are pointed at: `prove` shows all.
const FAULTS_SHOWN: usize = 3;
