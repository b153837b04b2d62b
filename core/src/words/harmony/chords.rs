//! Names of chords and degrees, as they stand inside sentences.

use crate::harmony::Chord;
use crate::phrase;
use crate::pitch::Degree;
use crate::words::Lang;

/// A degree, without an article: "5th", "5° grado", "5. Stufe".
pub(in crate::words) fn degree_name(degree: Degree, lang: Lang) -> &'static str {
    lang.say(match degree.number() {
        1 => phrase!("1st", "1° grado", "1. Stufe", "1er degré", "1.er grado"),
        2 => phrase!("2nd", "2° grado", "2. Stufe", "2e degré", "2.º grado"),
        3 => phrase!("3rd", "3° grado", "3. Stufe", "3e degré", "3.er grado"),
        4 => phrase!("4th", "4° grado", "4. Stufe", "4e degré", "4.º grado"),
        5 => phrase!("5th", "5° grado", "5. Stufe", "5e degré", "5.º grado"),
        6 => phrase!("6th", "6° grado", "6. Stufe", "6e degré", "6.º grado"),
        _ => phrase!("7th", "7° grado", "7. Stufe", "7e degré", "7.º grado"),
    })
}

/// The chord by its notes: "the sixth chord (D with F B)"; in German without an
/// article, so that it fits every case.
pub(super) fn sounding(chord: &Chord, lang: Lang) -> String {
    let mut numbers: Vec<u8> = chord.tones.iter().skip(1).map(|tone| tone.number).collect();
    crate::order::sort(&mut numbers);
    let name = match numbers.as_slice() {
        [] => {
            return lang
                .say(phrase!(
                    "no chord, the bass alone",
                    "nessun accordo, il basso solo",
                    "kein Akkord, der Bass allein",
                    "pas d’accord, la basse seule",
                    "ningún acorde, el bajo solo"
                ))
                .to_string();
        }
        [3, 5] => phrase!(
            "the plain chord",
            "l’accordo perfetto",
            "Dreiklang",
            "l’accord parfait",
            "el acorde perfecto"
        ),
        [3, 6] => phrase!(
            "the sixth chord",
            "l’accordo di sesta",
            "Sextakkord",
            "l’accord de sixte",
            "el acorde de sexta"
        ),
        [4, 6] => phrase!(
            "the six-four chord",
            "l’accordo di quarta e sesta",
            "Quartsextakkord",
            "l’accord de quarte et sixte",
            "el acorde de cuarta y sexta"
        ),
        [3, 5, 7] | [3, 7] => phrase!(
            "the seventh chord",
            "l’accordo di settima",
            "Septakkord",
            "l’accord de septième",
            "el acorde de séptima"
        ),
        [3, 5, 6] => phrase!(
            "the six-five chord",
            "l’accordo di quinta e sesta",
            "Quintsextakkord",
            "l’accord de quinte et sixte",
            "el acorde de quinta y sexta"
        ),
        [3, 4, 6] => phrase!(
            "the four-three chord",
            "l’accordo di terza e quarta",
            "Terzquartakkord",
            "l’accord de tierce et quarte",
            "el acorde de tercera y cuarta"
        ),
        [2, 4, 6] => phrase!(
            "the four-two chord",
            "l’accordo di seconda e quarta",
            "Sekundakkord",
            "l’accord de seconde et quarte",
            "el acorde de segunda y cuarta"
        ),
        [4, 5] => phrase!(
            "a suspended fourth",
            "il ritardo di quarta",
            "Quartvorhalt",
            "le retard de quarte",
            "el retardo de cuarta"
        ),
        [3, 5, 9] => phrase!(
            "a suspended ninth",
            "il ritardo di nona",
            "Nonenvorhalt",
            "le retard de neuvième",
            "el retardo de novena"
        ),
        _ => phrase!("the chord", "l’accordo", "Akkord", "l’accord", "el acorde"),
    };
    let mut tones: Vec<_> = chord.tones.iter().collect();
    crate::order::by_key(&mut tones, |tone| tone.number);
    let notes: Vec<String> =
        tones.iter().filter(|tone| tone.number != 1).map(|tone| lang.note(tone.class)).collect();
    lang.tell(
        phrase!(
            "{0} ({1} with {2})",
            "{0} ({1} con {2})",
            "{0} ({1} mit {2})",
            "{0} ({1} avec {2})",
            "{0} ({1} con {2})"
        ),
        [&lang.say(name), &lang.note(chord.bass.class()), &notes.join(" ")],
    )
}
