//! A tuning of one's own, typed or pasted as cents.

use super::Temperament;

/// Why a table of cents could not be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TableTrouble {
    /// This is no number of cents; `at` counts characters from 0.
    NotANumber {
        /// Where it starts.
        at: usize,
    },
    /// A number outside [-1200, 1200]; `at` counts characters from 0.
    OutOfRange {
        /// Where it starts.
        at: usize,
    },
    /// Neither eleven, twelve nor thirteen numbers.
    Count {
        /// How many there are.
        found: usize,
    },
}

/// Reads twelve cents values for C, C♯, D, E♭ … B, parted by spaces, commas,
/// semicolons or lines. C may be left out when it is 0 (eleven numbers), and the
/// octave's 1200 may stand at the end.
///
/// Numbers are kept to a thousandth of a cent; further digits are cut off.
///
/// # Errors
/// Says what is wrong and at which character.
pub fn read_table(text: &str) -> Result<Temperament, TableTrouble> {
    let mut values = Vec::new();
    let mut word = String::new();
    let mut start = 0;
    for (at, letter) in text.chars().chain([' ']).enumerate() {
        if !letter.is_whitespace() && !matches!(letter, ',' | ';') {
            if word.is_empty() {
                start = at;
            }
            word.push(letter);
        } else if !word.is_empty() {
            let value = thousandths(&word).ok_or(TableTrouble::NotANumber { at: start })?;
            if !(-1_200_000..=1_200_000).contains(&value) {
                return Err(TableTrouble::OutOfRange { at: start });
            }
            values.push(value as i32);
            word.clear();
        }
    }
    let found = values.len();
    let octave = values.last() == Some(&1_200_000);
    let starts = values.first() == Some(&0);
    match found {
        13 if octave && starts => {
            values.pop();
        }
        // Eleven steps and the octave, or eleven steps: C goes without saying.
        12 if octave && !starts => {
            values.pop();
            values.insert(0, 0);
        }
        12 => {}
        11 => values.insert(0, 0),
        _ => return Err(TableTrouble::Count { found }),
    }
    let table = <[i32; 12]>::try_from(values).map_err(|_| TableTrouble::Count { found })?;
    Ok(Temperament::Custom(table))
}

/// A decimal number in whole thousandths, cut off after them.
fn thousandths(word: &str) -> Option<i64> {
    let (sign, digits) = match word.strip_prefix(['-', '−']) {
        Some(rest) => (-1, rest),
        None => (1, word.strip_prefix('+').unwrap_or(word)),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let plain = |text: &str| text.chars().all(|letter| letter.is_ascii_digit());
    if !plain(whole) || !plain(part) || whole.len() + part.len() == 0 || whole.len() > 6 {
        return None;
    }
    let part: String = part.chars().chain("000".chars()).take(3).collect();
    let number = |text: &str| if text.is_empty() { Some(0) } else { text.parse::<i64>().ok() };
    Some(sign * (number(whole)? * 1000 + number(&part)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sound::cents;

    #[test]
    fn a_typed_table_is_the_tuning_it_names() {
        let meantone = "76.049 193.157 310.265 386.314 503.422 579.471
            696.578 772.627 889.735 1006.843 1082.892";
        let forms = [
            meantone.into(),
            format!("0, {meantone}"),
            format!("{meantone};1200"),
            format!("0 {meantone} 1200."),
        ];
        for text in forms {
            let table = read_table(&text).expect("a table");
            let (typed, named) = (cents(table), cents(Temperament::QuarterComma));
            for (typed, named) in typed.into_iter().zip(named) {
                assert!((typed - named).abs() < 0.001, "{text}");
            }
        }
    }

    #[test]
    fn mistakes_are_pointed_at() {
        assert_eq!(read_table("0 100 2OO"), Err(TableTrouble::NotANumber { at: 6 }));
        assert_eq!(read_table("0 100 9999"), Err(TableTrouble::OutOfRange { at: 6 }));
        assert_eq!(read_table("0 100 200"), Err(TableTrouble::Count { found: 3 }));
        assert_eq!(read_table(""), Err(TableTrouble::Count { found: 0 }));
        assert_eq!(read_table("."), Err(TableTrouble::NotANumber { at: 0 }));
        assert_eq!(read_table("1e3"), Err(TableTrouble::NotANumber { at: 0 }));
    }
}
