//! What is odd about given figures and typed basses, in sentences.

use crate::bass::TextTrouble;
use crate::figures::{FigureRemark, FigureTrouble};
use crate::harmony::{HarmonyRemark, HarmonyTrouble};
use crate::phrase;
use crate::words::{Lang, NoteNames};

/// The remark as one sentence, notes counted from 1.
pub fn harmony_remark(remark: &HarmonyRemark, lang: Lang) -> String {
    let what = match &remark.kind {
        HarmonyTrouble::Figures { remark, .. } => figure_remark(*remark, lang),
        HarmonyTrouble::NothingToPassFrom => lang
            .say(phrase!(
                "it is marked as a passing note, but no chord sounds before it, so it carries one itself",
                "è segnata come nota di passaggio, ma prima non suona alcun accordo, perciò ne porta uno",
                "er ist als Durchgang bezeichnet, aber kein Akkord klingt davor, darum trägt er selbst einen",
                "elle est marquée comme note de passage, mais aucun accord ne sonne avant : elle en porte donc un",
                "está marcada como nota de paso, pero antes no suena ningún acorde, así que lleva uno"
            ))
            .to_string(),
        HarmonyTrouble::FiguredInPassing => lang
            .say(phrase!(
                "it is marked as a passing note, so its figures are not played; let it carry a chord to hear them",
                "è segnata come nota di passaggio, perciò le sue cifre non si suonano; falle portare un accordo per udirle",
                "er ist als Durchgang bezeichnet, darum klingen seine Ziffern nicht; lassen Sie ihn einen Akkord tragen, um sie zu hören",
                "elle est marquée comme note de passage : ses chiffres ne sont pas joués ; faites-lui porter un accord pour les entendre",
                "está marcada como nota de paso, así que sus cifras no se tocan; haz que lleve un acorde para oírlas"
            ))
            .to_string(),
    };
    lang.tell(
        phrase!(
            "note {0}: {1}",
            "nota {0}: {1}",
            "Ton {0}: {1}",
            "note {0} : {1}",
            "nota {0}: {1}"
        ),
        [&(remark.note + 1), &what],
    )
}

fn figure_remark(remark: FigureRemark, lang: Lang) -> String {
    match remark {
        FigureRemark::Contradiction { number } => lang.tell(
            phrase!(
                "its figures ask for two different {0}s; the first is played",
                "le cifre chiedono due {0} diversi; si suona il primo",
                "die Ziffern verlangen zwei verschiedene {0}; die erste wird gespielt",
                "ses chiffres demandent deux {0} différents ; le premier est joué",
                "sus cifras piden dos {0} distintos; se toca el primero"
            ),
            [&number],
        ),
        FigureRemark::Impossible { number, semitones: 1 } => lang.tell(
            phrase!(
                "a {0} of 1 semitone cannot be; the {0} of the signature is played",
                "un {0} di 1 semitono non può essere; si suona il {0} dell’armatura",
                "eine {0} von 1 Halbton kann es nicht geben; es klingt die {0} der Vorzeichnung",
                "un {0} de 1 demi-ton ne peut être ; on joue le {0} de l’armure",
                "un {0} de 1 semitono no puede ser; se toca el {0} de la armadura"
            ),
            [&number],
        ),
        FigureRemark::Impossible { number, semitones } => lang.tell(
            phrase!(
                "a {0} of {1} semitones cannot be; the {0} of the signature is played",
                "un {0} di {1} semitoni non può essere; si suona il {0} dell’armatura",
                "eine {0} von {1} Halbtönen kann es nicht geben; es klingt die {0} der Vorzeichnung",
                "un {0} de {1} demi-tons ne peut être ; on joue le {0} de l’armure",
                "un {0} de {1} semitonos no puede ser; se toca el {0} de la armadura"
            ),
            [&number, &semitones],
        ),
        FigureRemark::Unlisted => lang
            .say(phrase!(
                "no table lists these figures together; they are played as written",
                "nessuna tavola riporta insieme queste cifre; si suonano come scritte",
                "keine Tabelle führt diese Ziffern zusammen; sie werden gespielt wie geschrieben",
                "aucune table ne réunit ces chiffres ; ils sont joués comme écrits",
                "ninguna tabla reúne estas cifras; se tocan como están escritas"
            ))
            .to_string(),
        FigureRemark::NothingToHold => lang
            .say(phrase!(
                "the dash has no chord before it to hold; a plain chord is played",
                "la lineetta non ha prima un accordo da tenere; si suona un accordo perfetto",
                "vor dem Strich steht kein Akkord zum Halten; ein Dreiklang wird gespielt",
                "le tiret n’a pas d’accord à tenir avant lui ; un accord parfait est joué",
                "la raya no tiene antes un acorde que mantener; se toca un acorde perfecto"
            ))
            .to_string(),
    }
}

/// Why typed figures could not be read, as one sentence.
pub fn figure_trouble(trouble: FigureTrouble, lang: Lang) -> String {
    match trouble {
        FigureTrouble::Nothing => lang
            .say(phrase!(
                "there are no figures here",
                "qui non ci sono cifre",
                "hier stehen keine Ziffern",
                "il n’y a pas de chiffres ici",
                "aquí no hay cifras"
            ))
            .to_string(),
        FigureTrouble::NoSuchFigure(digit) => lang.tell(
            phrase!(
                "there is no figure {0}; figures run from 2 to 9 and from 10 to 14",
                "la cifra {0} non esiste; le cifre vanno da 2 a 9 e da 10 a 14",
                "die Ziffer {0} gibt es nicht; Ziffern gehen von 2 bis 9 und von 10 bis 14",
                "il n’y a pas de chiffre {0} ; les chiffres vont de 2 à 9 et de 10 à 14",
                "no existe la cifra {0}; las cifras van de 2 a 9 y de 10 a 14"
            ),
            [&digit],
        ),
        FigureTrouble::UnknownSign(sign) => lang.tell(
            phrase!(
                "“{0}” is no figure; write digits with #, b or n, such as 6/5, #6 or 4-3",
                "«{0}» non è una cifra; scrivi numeri con #, b o n, come 6/5, #6 o 4-3",
                "„{0}“ ist keine Ziffer; schreiben Sie Zahlen mit #, b oder n, etwa 6/5, #6 oder 4-3",
                "« {0} » n’est pas un chiffre ; écrivez des nombres avec #, b ou n, comme 6/5, #6 ou 4-3",
                "«{0}» no es una cifra; escribe números con #, b o n, como 6/5, #6 o 4-3"
            ),
            [&sign],
        ),
    }
}

/// Why a piece of a typed bass could not be read, as one sentence.
pub fn text_trouble(trouble: TextTrouble, lang: Lang) -> String {
    let fixed = match trouble {
        TextTrouble::UnknownWord => {
            let notes = match lang.notes {
                NoteNames::Letters => "C3, Bb, F#2",
                NoteNames::Solfege => "do3, sib, fa#2",
                NoteNames::German => "C3, B, Fis2",
            };
            return lang.tell(
                phrase!(
                    "this is neither a note (such as {0}) nor figures (such as 6/5)",
                    "questo non è né una nota (come {0}) né cifre (come 6/5)",
                    "das ist weder ein Ton (wie {0}) noch Ziffern (wie 6/5)",
                    "ce n’est ni une note (comme {0}) ni des chiffres (comme 6/5)",
                    "esto no es ni una nota (como {0}) ni cifras (como 6/5)"
                ),
                [&notes],
            );
        }
        TextTrouble::Figures(trouble) => return figure_trouble(trouble, lang),
        TextTrouble::Octave => {
            let middle = match lang.notes {
                NoteNames::Letters | NoteNames::German => "C4",
                NoteNames::Solfege => "do4",
            };
            return lang.tell(
                phrase!(
                    "octaves run from -1 to 9; middle C is {0}",
                    "le ottave vanno da -1 a 9; il do centrale è {0}",
                    "Oktaven gehen von -1 bis 9; das eingestrichene C ist {0}",
                    "les octaves vont de -1 à 9 ; le do du milieu est {0}",
                    "las octavas van de -1 a 9; el do central es {0}"
                ),
                [&middle],
            );
        }
        TextTrouble::FiguresWithoutNote => phrase!(
            "these figures have no note before them",
            "queste cifre non hanno una nota davanti",
            "vor diesen Ziffern steht kein Ton",
            "ces chiffres n’ont pas de note devant eux",
            "estas cifras no tienen una nota delante"
        ),
        TextTrouble::SecondFigures => phrase!(
            "this note has its figures already; join further ones with a dash, as in 4-3",
            "questa nota ha già le sue cifre; uniscine altre con un trattino, come in 4-3",
            "dieser Ton hat schon Ziffern; weitere mit einem Strich anfügen, wie in 4-3",
            "cette note a déjà ses chiffres ; joignez-en d’autres par un tiret, comme 4-3",
            "esta nota ya tiene sus cifras; une otras con un guion, como en 4-3"
        ),
        TextTrouble::OpenBracket => phrase!(
            "this bracket is never closed",
            "questa parentesi non si chiude mai",
            "diese Klammer wird nie geschlossen",
            "cette parenthèse n’est jamais fermée",
            "este paréntesis no se cierra nunca"
        ),
        TextTrouble::Length => phrase!(
            "this is no length; write how many make a whole note, such as =4, =8. or =2+8",
            "questa non è una durata; scrivi quante fanno un intero, come =4, =8. o =2+8",
            "das ist keine Länge; schreiben Sie, wie viele eine Ganze ergeben, etwa =4, =8. oder =2+8",
            "ce n’est pas une durée ; écrivez combien en font une ronde, comme =4, =8. ou =2+8",
            "esto no es una duración; escribe cuántas hacen una redonda, como =4, =8. o =2+8"
        ),
        TextTrouble::RestFirst => phrase!(
            "this rest has no note before it; the prelude begins with its first note",
            "questa pausa non ha una nota prima; il preludio comincia con la sua prima nota",
            "vor dieser Pause steht kein Ton; das Präludium beginnt mit seinem ersten Ton",
            "ce silence n’a pas de note avant lui ; le prélude commence à sa première note",
            "este silencio no tiene una nota antes; el preludio empieza con su primera nota"
        ),
        TextTrouble::Accidentals => phrase!(
            "a note takes at most two sharps or flats",
            "una nota prende al massimo due diesis o bemolli",
            "ein Ton hat höchstens zwei Kreuze oder Bes",
            "une note prend au plus deux dièses ou bémols",
            "una nota toma como mucho dos sostenidos o bemoles"
        ),
    };
    lang.say(fixed).to_string()
}
