//! Whatever is typed: no crash, places inside the text, mends that read.

use quantity::{
    Dimension as D, Misread, System, read, read_box, read_cores, read_non_negative, read_opening, read_point,
    read_wire_size, show, show_both, show_wire_size,
};

/// A small generator with a fixed seed (SplitMix64), so that a failure can be repeated.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, limit: usize) -> usize {
        (self.next() % limit as u64) as usize
    }
}

const PIECES: &[&str] = &[
    "1", "0", "12", "000", "7", ".5", ".", ",", "-", "\u{2212}", "–", "+", "/", "⁄", "e9", "e400", "E", "½", "⅞", " ",
    "\u{a0}", "\u{2009}", "\t", "\n", "m", "mm", "mm2", "mm²", "ft", "in", "'", "\"", "′", "″", "A", "a", "V", "KG",
    "kg", "AWG", "awg", "SAE", "#", "ga", "°", "°C", "degF", "K", "%", "Ω", "\u{2126}", "µ", "μ", "x", "×", "X", "·",
    "*", "(", ")", "gal", "galUS", "EUR", "€", "$", "W/m2K", "W", "h", "min", "d", " per ", "day", "amps", "to", "±",
    "~", "NaN", "inf", "G", "B&S", "mcm", "²", "İ", "ß", "ﬀ", "日本", "\u{0}", "\u{1b}", "\u{200b}", "\u{feff}",
    "\u{301}", "🚐", "٣", "１", "..", "l", "/min", "'000", ";",
];

/// Texts that read, to be damaged.
const SOUND: &[&str] = &[
    "2.4 m",
    "8 ft 6 1/2 in",
    "5'-6 1/2\"",
    "12000 Btu/h",
    "16 A",
    "35 mm²",
    "2/0 AWG",
    "3 x 2.5 mm2",
    "1500, -890, 0 mm",
    "1800 x 550 x 900 mm",
    "820 x 1600 mm",
    "20 min/d",
    "-12 °C",
    "28000 EUR",
    "2.8 W/(m²·K)",
    "5 galUS",
    "92 %",
    "1 h 30 min",
    "12.5 V",
];

fn pieces(dice: &mut Dice) -> String {
    (0..dice.below(9)).map(|_| PIECES[dice.below(PIECES.len())]).collect()
}

fn characters(dice: &mut Dice) -> String {
    (0..dice.below(9)).map(|_| char::from_u32(dice.below(0x11_0000) as u32).unwrap_or('\u{fffd}')).collect()
}

/// A text that reads, with one to three characters removed, doubled, changed in case or followed by another piece.
fn damaged(dice: &mut Dice) -> String {
    let mut text: Vec<String> = SOUND[dice.below(SOUND.len())].chars().map(String::from).collect();
    for _ in 0..=dice.below(3) {
        let at = dice.below(text.len());
        let character = text[at].clone();
        text[at] = match dice.below(6) {
            0 => String::new(),
            1 => character.repeat(2),
            2 => character.to_uppercase(),
            3 => character.to_lowercase(),
            4 => PIECES[dice.below(PIECES.len())].to_owned(),
            _ => character + PIECES[dice.below(PIECES.len())],
        };
    }
    text.concat()
}

fn text(dice: &mut Dice) -> String {
    match dice.below(4) {
        0 => characters(dice),
        1 => pieces(dice),
        _ => damaged(dice),
    }
}

fn sound<T>(text: &str, result: &Result<T, Misread>, read: impl Fn(&str) -> bool) {
    if let Err(misread) = result {
        assert!(text.get(misread.at.clone()).is_some(), "{text:?}: {misread:?}");
        assert!(!misread.message.is_empty(), "{text:?}");
        assert!(!misread.message.contains(char::is_control), "{text:?}: {misread:?}");
        if let Some(instead) = &misread.instead {
            assert!(read(instead), "{text:?}: the mend {instead:?} does not read");
            assert_ne!(instead, text);
        }
    }
}

#[test]
fn no_text_crashes_the_reader_and_every_mend_reads() {
    const ROUNDS: usize = 12_000;
    const DIMENSIONS: [D; 10] = [
        D::LENGTH,
        D::CURRENT,
        D::AREA,
        D::RATIO,
        D::TEMPERATURE,
        D::TEMPERATURE_DIFFERENCE,
        D::MONEY,
        D::VOLTAGE,
        D::VOLUME,
        D::U_VALUE,
    ];
    let mut dice = Dice(20_260_314);
    let (mut read_count, mut mended) = (0, 0);
    for _ in 0..ROUNDS {
        let text = text(&mut dice);
        for dimension in DIMENSIONS {
            let result = read(&text, dimension);
            sound(&text, &result, |mend| read(mend, dimension).is_ok());
            match &result {
                Ok(quantity) => {
                    read_count += 1;
                    assert!(quantity.value.is_finite(), "{text:?}");
                    for system in [System::Metric, System::UsCustomary] {
                        assert!(!show(*quantity, system).is_empty() && !show_both(*quantity, system).is_empty());
                    }
                }
                Err(misread) => mended += usize::from(misread.instead.is_some()),
            }
        }
        sound(&text, &read_non_negative(&text, D::LENGTH), |mend| read_non_negative(mend, D::LENGTH).is_ok());
        let size = read_wire_size(&text);
        if let Ok(size) = size {
            assert!(size.area() > 0.0 && size.area().is_finite(), "{text:?}");
            assert!(!show_wire_size(size, System::UsCustomary).is_empty());
        }
        sound(&text, &size, |mend| read_wire_size(mend).is_ok());
        sound(&text, &read_cores(&text), |mend| read_cores(mend).is_ok());
        sound(&text, &read_point(&text), |mend| read_point(mend).is_ok());
        sound(&text, &read_box(&text), |mend| read_box(mend).is_ok());
        sound(&text, &read_opening(&text), |mend| read_opening(mend).is_ok());
    }
    // The dice must throw texts of every sort, else this test would say nothing.
    assert!(read_count > 300 && mended > 300, "{read_count} read, {mended} mended");
}
