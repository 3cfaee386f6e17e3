//! Which materials do not burn.
//!
//! Source: 675 IAC 15-2-2 (read): what is made of wood, paper, plant fibre and the like counts as combustible even if it is
//! flame-proofed, fire-retardant treated or plastered. So only what is metal, glass or stone throughout is taken as not burning; the
//! list of words is chosen.

/// Words of materials that do not burn.
const MINERAL: [&str; 16] = [
    "steel",
    "stainless",
    "aluminium",
    "aluminum",
    "iron",
    "copper",
    "brass",
    "glass",
    "ceramic",
    "tile",
    "stone",
    "concrete",
    "cement",
    "calcium-silicate",
    "gypsum",
    "rock-wool",
];

/// Words of materials that burn, whatever else is in them.
const ORGANIC: [&str; 16] = [
    "wood",
    "ply",
    "board",
    "timber",
    "foam",
    "cloth",
    "cotton",
    "carpet",
    "plastic",
    "paper",
    "laminate",
    "veneer",
    "fibre-reinforced",
    "polyester",
    "bamboo",
    "leather",
];

/// Whether a material, by its name, does not burn: it names metal, glass or stone and nothing of wood, fibre or plastic. "Cement
/// board" and "gypsum board" are mineral.
#[must_use]
pub fn does_not_burn(material: &str) -> bool {
    let words: Vec<String> = material
        .to_lowercase()
        .split(|character: char| !character.is_alphabetic() && character != '-')
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect();
    let is_mineral = |word: &String| MINERAL.contains(&word.as_str());
    let mineral_board =
        words.windows(2).any(|pair| matches!(pair, [kind, board] if is_mineral(kind) && board == "board"));
    let burns =
        |word: &String| !(mineral_board && word == "board") && ORGANIC.iter().any(|organic| word.contains(organic));
    words.iter().any(is_mineral) && !words.iter().any(burns)
}

#[cfg(test)]
mod tests {
    use super::does_not_burn;

    #[test]
    fn metal_glass_and_stone_do_not_burn_and_treated_wood_does() {
        for (material, stays) in [
            ("stainless steel", true),
            ("Aluminium", true),
            ("cement board", true),
            ("glass", true),
            ("plywood", false),
            ("fire-retardant plywood", false),
            ("plywood on steel legs", false),
            ("plywood and foam", false),
            ("", false),
            ("something new", false),
            ("gypsum board", true),
            ("chipboard, steel legs", false),
        ] {
            assert_eq!(does_not_burn(material), stays, "{material}");
        }
    }
}
