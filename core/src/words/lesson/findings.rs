//! What a check found, and how to mend it.

use super::{chords, figures, in_position, notes, with_cadence};
use crate::frame::Motion;
use crate::hands::HandRemark;
use crate::lesson::{Finding, FindingKind, Found, Part};
use crate::phrase;
use crate::words::hands::{at_chord, the_hand};
use crate::words::shape::sentence;
use crate::words::{Lang, fault, hand_remark, harmony_remark, rule_advice, rule_name};

/// The finding as one sentence with its place, chords and notes counted from 1.
pub fn finding(finding: &Finding, lang: Lang) -> String {
    sentence(&said(finding, lang))
}

fn said(finding: &Finding, lang: Lang) -> String {
    match &finding.kind {
        FindingKind::Outer(broken) => fault(broken, lang),
        FindingKind::Hand(remark) => hand_remark(remark, lang),
        FindingKind::Figures(remark) => harmony_remark(remark, lang),
        FindingKind::GivenChanged { part, note } => at_note(*note, changed(*part, lang), lang),
        FindingKind::NoFigures { note } => lang.tell(
            phrase!(
                "note {0} has no figures yet",
                "la nota {0} non ha ancora cifre",
                "Ton {0} hat noch keine Ziffern",
                "la note {0} n’a pas encore de chiffres",
                "la nota {0} aún no tiene cifras"
            ),
            [&(note + 1)],
        ),
        FindingKind::WrongChord { note, stage: _, has, wanted } => {
            let what = lang.tell(
                phrase!(
                    "{0} does not belong here; {1} does",
                    "{0} non va qui; va {1}",
                    "{0} gehört nicht hierher, sondern {1}",
                    "{0} n’a pas sa place ici, mais {1}",
                    "{0} no va aquí; va {1}"
                ),
                [&figures(has, lang), &figures(wanted, lang)],
            );
            at_note(*note, &what, lang)
        }
        FindingKind::WrongStages { note, has, wanted } => lang.tell(
            phrase!(
                "from note {0}: {1}, where the cadence or figure wants {2}",
                "dalla nota {0}: {1}, dove la cadenza o la cifra ne vuole {2}",
                "ab Ton {0}: {1}, wo Kadenz oder Ziffer {2} will",
                "dès la note {0} : {1}, où la cadence ou le chiffre en veut {2}",
                "desde la nota {0}: {1}, donde la cadencia o la cifra quiere {2}"
            ),
            [&(note + 1), &chords(*has, lang), wanted],
        ),
        FindingKind::WrongPosition { wanted } => lang.tell(
            phrase!(
                "the soprano does not start {0}",
                "il soprano non comincia {0}",
                "der Sopran beginnt nicht {0}",
                "le soprano ne commence pas {0}",
                "el soprano no empieza {0}"
            ),
            [&in_position(*wanted, lang)],
        ),
        FindingKind::FewAcciaccaturas { has, wanted } => {
            let has = match has {
                0 => lang
                    .say(phrase!(
                        "there are no acciaccaturas",
                        "non ci sono acciaccature",
                        "keine Acciaccatura",
                        "il n’y a pas d’acciaccatures",
                        "no hay acciaccaturas"
                    ))
                    .to_string(),
                has => lang.count(
                    *has,
                    phrase!(
                        "there is one acciaccatura",
                        "c’è un’acciaccatura",
                        "eine Acciaccatura",
                        "il y a une acciaccature",
                        "hay una acciaccatura"
                    ),
                    phrase!(
                        "there are {0} acciaccaturas",
                        "ci sono {0} acciaccature",
                        "{0} Acciaccaturen",
                        "il y a {0} acciaccatures",
                        "hay {0} acciaccaturas"
                    ),
                ),
            };
            lang.tell(
                phrase!(
                    "{0} of the {1} asked for",
                    "{0} delle {1} richieste",
                    "{0} von {1} verlangten",
                    "{0} sur les {1} demandées",
                    "{0} de las {1} pedidas"
                ),
                [&has, wanted],
            )
        }
        FindingKind::NoSoprano => at(
            finding,
            lang.say(phrase!(
                "no soprano note of yours yet",
                "ancora nessuna nota tua al soprano",
                "noch kein eigener Sopranton",
                "pas encore de note de soprano de vous",
                "aún ninguna nota tuya de soprano"
            )),
            lang,
        ),
        FindingKind::NoHandful => at(
            finding,
            lang.say(phrase!(
                "no handful of yours yet",
                "ancora nessuna presa tua",
                "noch kein eigener Griff",
                "pas encore de poignée de vous",
                "aún ninguna postura tuya"
            )),
            lang,
        ),
        FindingKind::Motion(motion) => {
            let what = lang.tell(
                phrase!(
                    "{0}, where only contrary motion and tenths are allowed",
                    "{0}, dove sono ammessi solo moto contrario e decime",
                    "{0}, wo nur Gegenbewegung und Dezimen erlaubt sind",
                    "{0}, où seuls sont permis le mouvement contraire et les dixièmes",
                    "{0}, donde solo se permiten movimiento contrario y décimas"
                ),
                [&moves(*motion, lang)],
            );
            at(finding, &what, lang)
        }
        FindingKind::ThinHand { hand, has, wanted } => {
            let what = lang.tell(
                phrase!(
                    "{0} has {1} of the {2} asked for",
                    "{0} ha {1} delle {2} richieste",
                    "{0} hat {1} von {2} verlangten",
                    "{0} a {1} sur les {2} demandées",
                    "{0} tiene {1} de las {2} pedidas"
                ),
                [&the_hand(*hand, lang), &notes(*has, lang), wanted],
            );
            at(finding, &what, lang)
        }
        FindingKind::NoCadence { wanted, has } => match has {
            Some(has) => lang.tell(
                phrase!(
                    "the phrase ends {0}, not {1}",
                    "la frase finisce {0}, non {1}",
                    "die Phrase endet {0}, nicht {1}",
                    "la phrase finit {0}, non {1}",
                    "la frase termina {0}, no {1}"
                ),
                [&with_cadence(*has, lang), &with_cadence(*wanted, lang)],
            ),
            None => lang.tell(
                phrase!(
                    "the phrase does not end {0} yet",
                    "la frase non finisce ancora {0}",
                    "die Phrase endet noch nicht {0}",
                    "la phrase ne finit pas encore {0}",
                    "la frase aún no termina {0}"
                ),
                [&with_cadence(*wanted, lang)],
            ),
        },
        FindingKind::Missed(broken) => lang.tell(
            phrase!(
                "not found: {0}",
                "non trovato: {0}",
                "nicht gefunden: {0}",
                "non trouvé : {0}",
                "no encontrado: {0}"
            ),
            [&fault(broken, lang)],
        ),
        FindingKind::Misnamed { found, fault: broken } => {
            let what = match found.rule {
                Some(rule) => lang.tell(
                    phrase!(
                        "there is a fault, but not “{0}”: {1}",
                        "c’è un errore, ma non «{0}»: {1}",
                        "hier ist ein Fehler, aber nicht „{0}“: {1}",
                        "il y a une faute, mais non « {0} » : {1}",
                        "hay una falta, pero no «{0}»: {1}"
                    ),
                    [&rule_name(rule, lang), &fault(broken, lang)],
                ),
                None => lang.tell(
                    phrase!(
                        "there is a fault, but it was not named: {0}",
                        "c’è un errore, ma non è stato nominato: {0}",
                        "hier ist ein Fehler, aber er wurde nicht benannt: {0}",
                        "il y a une faute, mais elle n’a pas été nommée : {0}",
                        "hay una falta, pero no se nombró: {0}"
                    ),
                    [&fault(broken, lang)],
                ),
            };
            at(finding, &what, lang)
        }
        FindingKind::NoFaultThere(Found { chord, rule }) => {
            let what = match rule {
                Some(rule) => lang.tell(
                    phrase!(
                        "no “{0}” there",
                        "nessun «{0}» lì",
                        "dort kein „{0}“",
                        "pas de « {0} » ici",
                        "ahí no hay «{0}»"
                    ),
                    [&rule_name(*rule, lang)],
                ),
                None => lang
                    .say(phrase!(
                        "no fault there",
                        "nessun errore lì",
                        "dort kein Fehler",
                        "pas de faute ici",
                        "ahí no hay falta"
                    ))
                    .to_string(),
            };
            at_chord(*chord, &what, lang)
        }
        FindingKind::KeyMissing(_)
        | FindingKind::KeyBass { .. }
        | FindingKind::KeyUnplayed { .. }
        | FindingKind::KeyChord { .. }
        | FindingKind::KeyOuter { .. } => in_key(&finding.kind, lang),
    }
}

/// What was found in a key in which the piece was to be played.
fn in_key(kind: &FindingKind, lang: Lang) -> String {
    let (tonality, what) = match kind {
        FindingKind::KeyMissing(key) => {
            return lang.tell(
                phrase!(
                    "nothing was played in {0} yet",
                    "in {0} non si è ancora suonato nulla",
                    "in {0} wurde noch nichts gespielt",
                    "rien n’a encore été joué en {0}",
                    "aún no se ha tocado nada en {0}"
                ),
                [&lang.tonality(*key)],
            );
        }
        FindingKind::KeyBass { tonality, note, has, wanted } => {
            let what = match (has, wanted) {
                (Some(has), Some(wanted)) => lang.tell(
                    phrase!(
                        "{0} in the bass instead of {1}",
                        "{0} al basso invece di {1}",
                        "{0} im Bass statt {1}",
                        "{0} à la basse au lieu de {1}",
                        "{0} en el bajo en vez de {1}"
                    ),
                    [&lang.note(*has), &lang.note(*wanted)],
                ),
                (None, Some(wanted)) => lang.tell(
                    phrase!(
                        "the bass stops before {0}",
                        "il basso si ferma prima di {0}",
                        "der Bass endet vor {0}",
                        "la basse s’arrête avant {0}",
                        "el bajo se detiene antes de {0}"
                    ),
                    [&lang.note(*wanted)],
                ),
                (Some(has), None) => lang.tell(
                    phrase!(
                        "the bass goes on to {0} past the end",
                        "il basso prosegue a {0} oltre la fine",
                        "der Bass geht über das Ende hinaus nach {0}",
                        "la basse continue à {0} au-delà de la fin",
                        "el bajo sigue a {0} más allá del final"
                    ),
                    [&lang.note(*has)],
                ),
                (None, None) => String::new(),
            };
            (tonality, at_note(*note, &what, lang))
        }
        FindingKind::KeyUnplayed { tonality, chord } => {
            let what = lang.tell(
                phrase!(
                    "chord {0} was not played",
                    "l’accordo {0} non è stato suonato",
                    "Akkord {0} wurde nicht gespielt",
                    "l’accord {0} n’a pas été joué",
                    "el acorde {0} no se tocó"
                ),
                [&(chord + 1)],
            );
            (tonality, what)
        }
        FindingKind::KeyChord { tonality, chord, trouble } => {
            let remark = HandRemark { chord: *chord, kind: trouble.clone() };
            (tonality, hand_remark(&remark, lang))
        }
        FindingKind::KeyOuter { tonality, fault: broken } => (tonality, fault(broken, lang)),
        _ => return String::new(),
    };
    lang.tell(
        phrase!("in {0}, {1}", "in {0}, {1}", "in {0}, {1}", "en {0}, {1}", "en {0}, {1}"),
        [&lang.tonality(*tonality), &what],
    )
}

/// "chords 3–4: what is said of them".
fn at(finding: &Finding, what: &str, lang: Lang) -> String {
    match finding.chords {
        Some((from, to)) if from == to => at_chord(from, what, lang),
        Some((from, to)) => lang.tell(
            phrase!(
                "chords {0}–{1}: {2}",
                "accordi {0}–{1}: {2}",
                "Akkorde {0}–{1}: {2}",
                "accords {0}–{1} : {2}",
                "acordes {0}–{1}: {2}"
            ),
            [&(from + 1), &(to + 1), &what],
        ),
        None => lang.tell(
            phrase!(
                "the piece: {0}",
                "il pezzo: {0}",
                "das Stück: {0}",
                "la pièce : {0}",
                "la pieza: {0}"
            ),
            [&what],
        ),
    }
}

/// "note 3: what is said of it", notes counted from 0.
fn at_note(note: usize, what: &str, lang: Lang) -> String {
    lang.tell(
        phrase!(
            "note {0}: {1}",
            "nota {0}: {1}",
            "Ton {0}: {1}",
            "note {0} : {1}",
            "nota {0}: {1}"
        ),
        [&(note + 1), &what],
    )
}

fn changed(part: Part, lang: Lang) -> &'static str {
    lang.say(match part {
        Part::Bass => phrase!(
            "the given bass note was changed",
            "la nota data del basso è stata cambiata",
            "der gegebene Basston wurde geändert",
            "la note de basse donnée a été changée",
            "se cambió la nota dada del bajo"
        ),
        Part::Figures => phrase!(
            "the given figure was changed",
            "la cifra data è stata cambiata",
            "die gegebene Ziffer wurde geändert",
            "le chiffre donné a été changé",
            "se cambió la cifra dada"
        ),
        Part::Soprano => phrase!(
            "the given soprano note was changed",
            "la nota data del soprano è stata cambiata",
            "der gegebene Sopranton wurde geändert",
            "la note de soprano donnée a été changée",
            "se cambió la nota dada del soprano"
        ),
        Part::Handfuls => phrase!(
            "the given handful was changed",
            "la presa data è stata cambiata",
            "der gegebene Griff wurde geändert",
            "la poignée donnée a été changée",
            "se cambió la postura dada"
        ),
        Part::Roll => phrase!(
            "the given roll was changed",
            "l’arpeggio dato è stato cambiato",
            "die gegebene Brechung wurde geändert",
            "l’arpègement donné a été changé",
            "se cambió el arpegio dado"
        ),
    })
}

fn moves(motion: Motion, lang: Lang) -> &'static str {
    match motion {
        Motion::Oblique => lang.say(phrase!(
            "one voice stays while the other moves",
            "una voce sta mentre l’altra si muove",
            "eine Stimme bleibt, während die andere geht",
            "une voix reste pendant que l’autre bouge",
            "una voz queda mientras la otra se mueve"
        )),
        Motion::Parallel => lang.say(phrase!(
            "parallel motion, not in tenths",
            "moto parallelo, non in decime",
            "Parallelbewegung, nicht in Dezimen",
            "mouvement parallèle, non en dixièmes",
            "movimiento paralelo, no en décimas"
        )),
        Motion::Contrary | Motion::Similar | Motion::Still => {
            crate::words::motion_name(motion, 0, lang)
        }
    }
}

/// What to do about it, as one sentence.
pub fn finding_advice(finding: &Finding, lang: Lang) -> String {
    let fixed = match &finding.kind {
        FindingKind::Outer(broken)
        | FindingKind::KeyOuter { tonality: _, fault: broken }
        | FindingKind::Missed(broken)
        | FindingKind::Misnamed { found: _, fault: broken } => {
            return rule_advice(broken.rule, lang).to_string();
        }
        FindingKind::Hand(_) => phrase!(
            "Give a note to the other hand, move one by an octave, or leave a doubling out.",
            "Dai una nota all’altra mano, spostane una d’ottava o togli un raddoppio.",
            "Einen Ton der anderen Hand geben, einen um eine Oktave versetzen oder eine Verdopplung weglassen.",
            "Donnez une note à l’autre main, déplacez-en une d’une octave, ou ôtez une doublure.",
            "Da una nota a la otra mano, mueve una una octava o quita una duplicación."
        ),
        FindingKind::Figures(_) => phrase!(
            "Write the figures so that they can be played in one way only.",
            "Scrivi le cifre in modo che si possano suonare in un modo solo.",
            "Die Ziffern so schreiben, dass sie nur auf eine Weise zu spielen sind.",
            "Écrivez les chiffres de façon qu’ils ne se jouent que d’une manière.",
            "Escribe las cifras de modo que solo puedan tocarse de una manera."
        ),
        FindingKind::GivenChanged { .. } => phrase!(
            "Put it back as it was given; only the rest is yours.",
            "Rimettila com’era data; solo il resto è tuo.",
            "Wieder so setzen, wie es gegeben war; nur der Rest gehört Ihnen.",
            "Remettez-la comme elle était donnée ; seul le reste est à vous.",
            "Devuélvela a como se daba; solo lo demás es tuyo."
        ),
        FindingKind::NoFigures { .. } => phrase!(
            "Look where the bass goes next and figure the note; write 5/3 for the plain chord.",
            "Guarda dove va il basso e cifra la nota; scrivi 5/3 per l’accordo perfetto.",
            "Sehen Sie, wohin der Bass geht, und beziffern Sie den Ton; 5/3 steht für den Dreiklang.",
            "Voyez où va la basse et chiffrez la note ; écrivez 5/3 pour l’accord parfait.",
            "Mira adónde va el bajo y cifra la nota; escribe 5/3 para el acorde perfecto."
        ),
        FindingKind::WrongChord { .. } => phrase!(
            "Look at the degree and at where the bass goes next: by step the octave rule tells, by leap the plain chord of the degree.",
            "Guarda il grado e dove va il basso: di grado lo dice la regola dell’ottava, di salto l’accordo perfetto del grado.",
            "Sehen Sie auf die Stufe und wohin der Bass geht: beim Schritt gilt die Oktavregel, beim Sprung der Dreiklang der Stufe.",
            "Voyez le degré et où va la basse : par degré, la règle de l’octave le dit ; par saut, l’accord parfait du degré.",
            "Mira el grado y adónde va el bajo: por grado lo dice la regla de la octava; por salto, el acorde perfecto del grado."
        ),
        FindingKind::WrongStages { .. } => phrase!(
            "Count the sonorities: one for a plain note or a simple cadence, two for a compound, four for a double.",
            "Conta le sonorità: una per una nota semplice o una cadenza semplice, due per la composta, quattro per la doppia.",
            "Zählen Sie die Klänge: einer für einen schlichten Ton oder eine einfache Kadenz, zwei für die zusammengesetzte, vier für die doppelte.",
            "Comptez les sonorités : une pour une note simple ou une cadence simple, deux pour la composée, quatre pour la double.",
            "Cuenta las sonoridades: una para una nota simple o una cadencia simple, dos para la compuesta, cuatro para la doble."
        ),
        FindingKind::NoSoprano => phrase!(
            "Put a note of the chord on top.",
            "Metti in alto una nota dell’accordo.",
            "Einen Ton des Akkords nach oben legen.",
            "Mettez une note de l’accord en haut.",
            "Pon arriba una nota del acorde."
        ),
        FindingKind::WrongPosition { .. } => phrase!(
            "Start with another note of the first chord on top.",
            "Comincia con un’altra nota del primo accordo in alto.",
            "Mit einem anderen Ton des ersten Akkords oben beginnen.",
            "Commencez avec une autre note du premier accord en haut.",
            "Empieza con otra nota del primer acorde arriba."
        ),
        FindingKind::Motion(_) => phrase!(
            "Turn the soprano against the bass, or take the tenth above it.",
            "Volgi il soprano contro il basso, o prendine la decima.",
            "Den Sopran gegen den Bass wenden oder die Dezime über ihm nehmen.",
            "Tournez le soprano contre la basse, ou prenez sa dixième.",
            "Vuelve el soprano contra el bajo, o toma su décima."
        ),
        FindingKind::NoHandful => phrase!(
            "Share the notes of the chord between your hands.",
            "Dividi le note dell’accordo tra le mani.",
            "Die Töne des Akkords auf die Hände verteilen.",
            "Partagez les notes de l’accord entre vos mains.",
            "Reparte las notas del acorde entre las manos."
        ),
        FindingKind::ThinHand { .. } => phrase!(
            "Double a note of the chord that is free to be doubled, within your span.",
            "Raddoppia una nota dell’accordo che si può raddoppiare, entro la tua apertura.",
            "Einen frei verdoppelbaren Ton des Akkords innerhalb Ihrer Spanne verdoppeln.",
            "Doublez une note de l’accord qui peut l’être, dans votre étendue.",
            "Duplica una nota del acorde que pueda duplicarse, dentro de tu extensión."
        ),
        FindingKind::FewAcciaccaturas { .. } => phrase!(
            "Add spice to chords that have a third or fourth to fill, the minor ones and the dominant first.",
            "Aggiungi condimento agli accordi con una terza o quarta da riempire, prima i minori e la dominante.",
            "Geben Sie Akkorden mit einer Terz oder Quarte zum Füllen Würze, zuerst den Mollakkorden und der Dominante.",
            "Ajoutez du sel aux accords ayant une tierce ou une quarte à remplir, d’abord les mineurs et la dominante.",
            "Añade condimento a los acordes con una tercera o cuarta que llenar, primero los menores y la dominante."
        ),
        FindingKind::KeyMissing(_) => phrase!(
            "Choose the key and play the bass again from its tonic.",
            "Scegli il tono e suona di nuovo il basso dalla sua tonica.",
            "Die Tonart wählen und den Bass von ihrer Tonika aus noch einmal spielen.",
            "Choisissez le ton et rejouez la basse à partir de sa tonique.",
            "Elige el tono y toca el bajo otra vez desde su tónica."
        ),
        FindingKind::KeyBass { .. } => phrase!(
            "Count the degrees from the new tonic.",
            "Conta i gradi dalla nuova tonica.",
            "Die Stufen von der neuen Tonika aus zählen.",
            "Comptez les degrés à partir de la nouvelle tonique.",
            "Cuenta los grados desde la nueva tónica."
        ),
        FindingKind::KeyUnplayed { .. } => phrase!(
            "Play this chord with both hands.",
            "Suona questo accordo con entrambe le mani.",
            "Diesen Akkord mit beiden Händen spielen.",
            "Jouez cet accord des deux mains.",
            "Toca este acorde con ambas manos."
        ),
        FindingKind::KeyChord { .. } => phrase!(
            "Look at the figures, and at the accidentals of the key.",
            "Guarda le cifre e le alterazioni del tono.",
            "Auf die Ziffern und die Vorzeichen der Tonart achten.",
            "Voyez les chiffres, et les altérations du ton.",
            "Mira las cifras y las alteraciones del tono."
        ),
        FindingKind::NoCadence { .. } => phrase!(
            "Bring the bass to the 5th and home to the tonic, and give the 5th as many sonorities as the cadence has.",
            "Porta il basso al 5° grado e poi alla tonica, e dai al 5° tante sonorità quante ne ha la cadenza.",
            "Den Bass zur 5. Stufe und heim zur Tonika führen und der 5. so viele Klänge geben, wie die Kadenz hat.",
            "Menez la basse au 5e degré puis à la tonique, et donnez au 5e autant de sonorités que la cadence en a.",
            "Lleva el bajo al 5.º grado y a la tónica, y da al 5.º tantas sonoridades como tiene la cadencia."
        ),
        FindingKind::NoFaultThere(_) => phrase!(
            "Listen to the two voices there alone, slowly: each moves as it may.",
            "Ascolta lì le due voci da sole, lentamente: ciascuna si muove come può.",
            "Hören Sie die beiden Stimmen dort allein, langsam: Jede geht, wie sie darf.",
            "Écoutez là les deux voix seules, lentement : chacune va comme elle peut.",
            "Escucha ahí las dos voces solas, despacio: cada una va como puede."
        ),
    };
    lang.say(fixed).to_string()
}
