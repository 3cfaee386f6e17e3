//! The shipped packs are proved: every example has its verdict, masking MC/DC is complete, and no slightly wrong version of
//! a rule goes unnoticed.

#[test]
fn the_shipped_packs_are_proved_hard() {
    let texts = packs::texts();
    let proof = rules::prove::run(texts, true);
    let told: Vec<String> = proof
        .faults
        .iter()
        .map(|fault| fault.show(texts.iter().find(|(path, _)| *path == fault.file).map_or("", |(_, text)| text)))
        .collect();
    assert_eq!(told, [""; 0]);
    assert!((proof.percent() - 100.0).abs() < f64::EPSILON, "masking MC/DC {} %", proof.percent());
    let tried: usize =
        proof.rules.iter().filter_map(|rule| rule.mutation.as_ref()).map(|mutation| mutation.tried).sum();
    assert!(tried > 50, "only {tried} wrong versions were tried");
}
