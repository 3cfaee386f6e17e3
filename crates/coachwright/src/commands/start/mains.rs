//! The part of a draft with alternating current. Shore and inverter feed a board each, so that no two sources can meet.

use super::answers::Answers;
use super::draft::Draft;

/// The voltage of outlets, V: by the mains of the regions.
pub fn voltage(american: bool) -> u32 {
    if american { 120 } else { 230 }
}

/// What is usual for a region: the sizes of conductors go with the ratings of the devices before them.
struct Usual {
    /// The inlet and the main, A.
    main: u32,
    /// The family of the inlet's contacts.
    pattern: &'static str,
    /// The cord: how many conductors of which size.
    cord: &'static str,
    /// The conductors from the inlet to the board.
    feed: &'static str,
    /// A way of the board: its breaker, A, and its conductor.
    way: (u32, &'static str),
    /// Poles of the main and the breakers.
    poles: u32,
    /// The conductor that joins the board's earth bar to the vehicle's metal.
    bond: &'static str,
    /// The residual-current device of the board, for all its ways.
    board_rcd: &'static str,
    /// The residual-current device of a way with outlets.
    way_rcd: &'static str,
}

/// 30 A at 120 V with 5 mA devices before the outlets: as the demo builds of the United States, by NEC 551 (read in part).
const AMERICAN: Usual = Usual {
    main: 30,
    pattern: "nema",
    cord: "3 x 10 AWG",
    feed: "10 AWG",
    way: (15, "12 AWG"),
    poles: 1,
    bond: "8 AWG",
    board_rcd: "",
    way_rcd: " rcd=\"5 mA\"",
};

/// 16 A at 230 V with a 30 mA device before everything: as the demo builds, by IEC 60364-7-721 (second-hand).
const EUROPEAN: Usual = Usual {
    main: 16,
    pattern: "iec-60309",
    cord: "3 x 2.5 mm2",
    feed: "2.5 mm2",
    way: (10, "2.5 mm2"),
    poles: 2,
    bond: "6 mm2",
    board_rcd: " rcd=\"30 mA\" rcd-type=A rcd-poles=2",
    way_rcd: "",
};

/// 15 A at 230 V with contacts by AS/NZS 3123 (second-hand).
const SOUTHERN: Usual = Usual { main: 15, pattern: "as-nzs-3123", ..EUROPEAN };

/// Writes what shore and the inverter feed.
pub fn write(answers: &Answers, text: &mut Draft) {
    let usual = match answers.regions.first().map(String::as_str) {
        Some("us") => AMERICAN,
        Some("au-nz") => SOUTHERN,
        _ => EUROPEAN,
    };
    if !answers.shore && answers.inverter.is_none() {
        return;
    }
    let volts = voltage(text.american);
    text.heading("alternating current: shore and inverter feed a board each, so that no two sources meet");
    let electric_hob = answers.cooking.as_deref() == Some("electric");
    if answers.shore {
        let warrant = if answers.regions.iter().any(|region| region == "au-nz") {
            " warrant=unknown { // whether a warrant of electrical fitness is held (New Zealand)"
        } else {
            " {"
        };
        text.line(&format!("shore{warrant}"));
        text.line(&format!(
            "inlet rating=\"{} A\" voltage=\"{volts} V\" pattern={} above-ground=unknown side=unknown from-rear=unknown notice=yes // measure",
            usual.main, usual.pattern
        ));
        text.line(&format!(
            "cord \"{}\" one-way=unknown type=unknown rating=\"{} A\" // measure; printed on it",
            usual.cord, usual.main
        ));
        text.line(&format!(
            "to \"shore board\" wire=\"{0}\" one-way=unknown insulation=\"90 degC\" breaker=\"{1} A\" earth=\"{0}\" // measure along its way",
            usual.feed, usual.main
        ));
        text.line("}");
        let mut ways = vec![("shore charger", ""), ("shore outlets", usual.way_rcd)];
        if electric_hob {
            ways.push(("hob", ""));
        }
        board("shore board", &usual, &ways, text);
        outlets("shore outlets", volts, text);
    }
    if answers.inverter.is_some() {
        let poles = usual.poles;
        let (amperes, wire) = usual.way;
        text.line("circuit \"inverter output\" from=\"main inverter\" to=\"inverter board\" {");
        text.line(&format!("breaker rating=\"{amperes} A\" class=mcb poles={poles} for=alternating reset=hand"));
        text.line(&format!("wire size=\"{wire}\" one-way=unknown insulation=\"90 degC\" // measure along its way"));
        text.line("}");
        let mut ways = vec![("inverter outlets", usual.way_rcd)];
        if electric_hob && !answers.shore {
            ways.push(("hob", ""));
        }
        board("inverter board", &usual, &ways, text);
        outlets("inverter outlets", volts, text);
    }
}

fn board(name: &str, usual: &Usual, ways: &[(&str, &str)], text: &mut Draft) {
    text.line(&format!(
        "ac-board \"{name}\" main=\"{} A\" poles={} main-switch=yes class=mcb rating=unknown interrupting=unknown working-space=unknown{} earth-bond=\"{}\" neutral-bond=no protective-conductors=as-lines zone=cabin {{ // from its data sheet; measure in front of it",
        usual.main, usual.poles, usual.board_rcd, usual.bond
    ));
    let (breaker, wire) = usual.way;
    for (index, (thing, rcd)) in ways.iter().enumerate() {
        text.line(&format!(
            "way {} \"{thing}\" breaker=\"{breaker} A\" wire=\"{wire}\" one-way=unknown insulation=\"90 degC\" earth=\"{wire}\"{rcd} // measure along its way",
            index + 1
        ));
    }
    text.line("}");
}

fn outlets(name: &str, volts: u32, text: &mut Draft) {
    text.line(&format!(
        "outlets \"{name}\" count=unknown voltage=\"{volts} V\" load=unknown earthed=yes water-distance=unknown zone=cabin // what is plugged in; measure to the nearest basin"
    ));
}
