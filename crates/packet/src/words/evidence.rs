//! Texts of the index of evidence and certificates.

pub const TITLE: &str = "Evidence and certificates";
pub const PURPOSE: &str = "For the certifier and the file: the papers that the specification names, and those that are handed over with the vehicle.";
pub const PROVES: &str = "What it proves";
pub const NAMED_BY: &str = "Named by";
pub const SEEN: &str = "Seen by, on";
pub const NAMED: &str = "Named in the specification";
pub const DUE: &str = "Handed over with the vehicle";
pub const WAIVER: &str = "that a finding may be accepted";
pub const SAID: &str = "what is said of the part";
pub const APPROVAL: &str = "that its type is approved";
pub const TESTED_TO: &str = "the standards that it is tested to, by its label";
pub const MATTRESS: &str = "how its mattress stands the test by flame, by its label";
pub const CERTIFICATES: &str = "Certificates";
pub const GAS: &str = "the gas system, as licensed gas work";
pub const GAS_DECLARATION: &str = "the declaration of who built the gas system";
pub const ELECTRICAL: &str = "the electrical system";
pub const MASS: &str = "the masses";
pub const SELF_CONTAINMENT: &str = "that the vehicle is self-contained";
pub const PLAN: &str = "that the plans are approved";
pub const OTHER: &str = "what it says";
pub const FLOOR: &str = "that the floor below it bears it";
pub const PLANS: &str = "Approval of the plans, before anything is built";
pub const PLANS_FOR: &str = "asked for in some states because of:";
pub const UNTITLED: &str = "Certificate";
pub const NUMBER: &str = "No.";
pub const PROTECTION_TESTS: &str = "insulation, earth, polarity and residual-current tests";
/// Papers that a handover has: which, what they prove, and the systems for which they are due.
pub const HANDOVER: &[(&str, &str, &str)] = &[
    ("Record of the electrical tests, direct current", "the commissioning tests of this packet", "power"),
    ("Record of the electrical tests, alternating current", PROTECTION_TESTS, "shore"),
    ("Record of the gas tightness test", "that the gas system is tight and its appliances burn well", "gas"),
    ("Weighbridge ticket, each axle, as built", "the mass as built; nothing here replaces it", ""),
    ("Instructions of every appliance", "how its maker wants it used and serviced", ""),
];
pub const NOTE: &str = "Which certificates an authority asks for depends on the place of registration; this list is what the trade hands over (common practice, no source).";
