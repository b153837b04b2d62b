//! Prints figures: as text that reads back, and abbreviated as players write them.

use super::{Accidental, Figures, Sign, Stage};
use crate::order;

/// The figures of one note as text that [`super::read_figures`] reads back.
pub fn print(figures: &Figures) -> String {
    figures.stages().iter().map(print_stage).collect::<Vec<_>>().join("-")
}

/// One sonority as text.
pub fn print_stage(stage: &Stage) -> String {
    match stage {
        Stage::Hold => "_".to_string(),
        Stage::TastoSolo => "t.s.".to_string(),
        Stage::Signs(signs) if signs.is_empty() => ".".to_string(),
        Stage::Signs(signs) => signs.iter().map(sign).collect::<Vec<_>>().join("/"),
    }
}

fn sign(sign: &Sign) -> String {
    let number = match (sign.number, sign.accidental) {
        (3, Some(_)) => String::new(),
        (number, _) => number.to_string(),
    };
    match sign.accidental {
        None => number,
        Some(Accidental::DoubleFlat) => format!("bb{number}"),
        Some(Accidental::Flat) => format!("b{number}"),
        Some(Accidental::Natural) => format!("n{number}"),
        Some(Accidental::Sharp) => format!("#{number}"),
        Some(Accidental::DoubleSharp) => format!("x{number}"),
        Some(Accidental::Raised) => format!("{number}+"),
    }
}

/// The signs a player would write for a full sonority given as (number,
/// accidental) pairs: implied figures are left out where the table allows it.
///
/// 5/3 prints nothing, 6/3 a 6, 7/5/3 a 7, 6/5/3 a 6/5, 6/4/3 a 4/3, 6/4/2 a 4/2
/// and 9/5/3 a 9; an altered figure is always printed. (C.P.E. Bach, *Versuch* II,
/// 1762; Arnold, *Thorough-Bass*, 1931: from memory.)
pub fn abbreviated(full: &[Sign]) -> Stage {
    let mut numbers: Vec<u8> = full.iter().map(|sign| sign.number).collect();
    order::sort(&mut numbers);
    let implied: &[u8] = match numbers.as_slice() {
        [3, 5] => &[3, 5],
        [3, 6] => &[3],
        [3, 5, 7] => &[3, 5],
        [3, 5, 6] => &[3],
        [3, 4, 6] => &[6],
        [2, 4, 6] => &[6],
        [3, 5, 9] => &[3, 5],
        [3, 7, 9] => &[3],
        [4, 5, 9] => &[5],
        _ => &[],
    };
    let keep = |sign: &&Sign| sign.accidental.is_some() || !implied.contains(&sign.number);
    let mut signs: Vec<Sign> = full.iter().filter(keep).copied().collect();
    order::by_key(&mut signs, |sign| std::cmp::Reverse(sign.number));
    // A lone altered fifth would read as 6/5, so its third is written too.
    if let [only] = signs.as_slice()
        && only.number == 5
    {
        signs.push(Sign { number: 3, accidental: None });
    }
    Stage::Signs(signs)
}
