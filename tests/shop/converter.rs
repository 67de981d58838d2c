//! The converter's line, its link and the lines that are kept.

use handwheel::{
    engine::{convert::hardness::Scale, quantity::System},
    shop::{
        converter::{ConvertForm, Converter, Quantity},
        document::Document,
        restore::restore,
        typed::Typed,
        word::Word,
    },
};

fn line(text: &str) -> ConvertForm {
    ConvertForm { line: Typed::inch(text), ..ConvertForm::default() }
}

#[test]
fn a_link_holds_the_line_as_it_was_typed() {
    for text in ["1 3/8", ".5+1/64", "#25", "25 ±0.05", "1.250 +.000/-.002", "5' 3\"", "100%", "ü"]
    {
        for system in [System::Inch, System::Metric] {
            for &quantity in Quantity::ALL {
                let form = ConvertForm {
                    quantity,
                    line: Typed::new(text, system),
                    scale: if quantity == Quantity::Hardness { Scale::Hv } else { Scale::Hrc },
                };
                assert_eq!(ConvertForm::from_query(&form.to_query()), form);
            }
        }
    }
    assert_eq!(line("1 3/8").to_query(), "line_in=1+3/8");
}

#[test]
fn a_link_that_says_nonsense_opens_the_usual() {
    for query in ["", "?", "of=cheese&scale=soft", "line=3", "&&=%"] {
        assert_eq!(ConvertForm::from_query(query), ConvertForm::default(), "{query}");
    }
}

#[test]
fn every_quantity_reads_its_own_unit() {
    for &quantity in Quantity::ALL {
        let text = format!("7 {}", quantity.measure().unit(System::Metric));
        let form = ConvertForm { quantity, line: Typed::inch(text), ..ConvertForm::default() };
        assert!(form.read().is_ok(), "{form:?}");
    }
}

#[test]
fn the_last_fifty_lines_are_kept_each_once() {
    let mut kept = Converter::default();
    for n in 0..60 {
        kept.note(&line(&n.to_string()));
    }
    kept.note(&line("30"));
    kept.note(&line("30"));
    kept.note(&line("3/"));
    kept.note(&line("  "));
    assert_eq!(kept.lines.len(), 50);
    assert_eq!(kept.lines[0], line("30"));
    assert_eq!(kept.lines[1], line("59"));
    assert_eq!(kept.lines.iter().filter(|kept| **kept == line("30")).count(), 1);
}

#[test]
fn kept_lines_come_back_after_a_restart() {
    let mut shop = Document::default();
    shop.converter.note(&line("1 3/8+.030"));
    shop.converter.blocks = "metric_47".into();
    assert_eq!(restore(&shop.to_text()).as_ref(), Ok(&shop));
}

#[test]
fn a_part_of_the_converter_that_a_later_version_adds_or_drops_does_no_harm() {
    let shop = Document::default().to_text();
    let plain = serde_json::to_string(&Converter::default()).unwrap();
    let with = |part: &str| {
        assert!(shop.contains(&plain), "{shop}");
        shop.replace(&plain, part)
    };
    assert_eq!(restore(&with("{}")), Ok(Document::default()));
    assert_eq!(
        restore(&with("{\"blocks\":\"inch_36\",\"new\":1}")).unwrap().converter.blocks,
        "inch_36"
    );
}

#[test]
fn the_pieces_that_are_typed_are_the_ones_that_are_owned() {
    let mut kept = Converter::default();
    assert_eq!(kept.owned().unwrap().len(), 81);
    kept.blocks = "parallels".into();
    assert_eq!(kept.owned().unwrap().len(), 10);
    kept.pieces = Typed::inch("1/2 .625 10mm");
    let pieces: Vec<f64> = kept.owned().unwrap().iter().map(|piece| piece.to_f64()).collect();
    assert_eq!(pieces, [12.7, 15.875, 10.0]);
    kept.pieces = Typed::inch("1/2 ?");
    assert!(kept.owned().is_err());
}

#[test]
fn a_swapped_line_is_the_same_in_the_other_units() {
    for (text, system, swapped, to) in [
        ("1 3/8", System::Inch, "34.925", System::Metric),
        ("34.925", System::Metric, "1.375", System::Inch),
        ("60mm", System::Inch, "2.36220", System::Inch),
        ("#25", System::Metric, "3.7973", System::Metric),
        ("1.250 +.000/-.002", System::Inch, "31.750 +0.000/-0.050", System::Metric),
    ] {
        let form = ConvertForm { line: Typed::new(text, system), ..ConvertForm::default() };
        let swapped = Typed::new(swapped, to);
        assert_eq!(form.swapped().map(|form| form.line), Some(swapped), "{text}");
    }
    let angle = |text: &str| ConvertForm { quantity: Quantity::Angle, ..line(text) };
    assert_eq!(angle("30.25").swapped(), Some(angle("30° 15' 0\"")));
    assert_eq!(angle("30° 15'").swapped(), Some(angle("30.2500°")));
    assert_eq!(line("3/").swapped(), None);
    let hard = ConvertForm { quantity: Quantity::Hardness, ..line("60") };
    assert_eq!(hard.swapped(), None);
}
