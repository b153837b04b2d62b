//! What the hands could not honour, in sentences.

use super::Lang;
use crate::hands::{Hand, HandRemark, HandTrouble, Hardship, HardshipKind, Strain};
use crate::phrase;

/// The remark as one sentence, chords counted from 1.
pub fn hand_remark(remark: &HandRemark, lang: Lang) -> String {
    at_chord(remark.chord, &trouble(&remark.kind, lang), lang)
}

/// "chord 3: what is said of it", chords counted from 0.
pub(super) fn at_chord(chord: usize, what: &str, lang: Lang) -> String {
    lang.tell(
        phrase!(
            "chord {0}: {1}",
            "accordo {0}: {1}",
            "Akkord {0}: {1}",
            "accord {0} : {1}",
            "acorde {0}: {1}"
        ),
        [&(chord + 1), &what],
    )
}

/// The caution about wide handfuls, in a few sentences.
pub fn strain(strain: &Strain, lang: Lang) -> String {
    lang.tell(
        phrase!(
            "{0} of {1} handfuls open a hand wider than an octave. Roll them rather than hold them, keep the wrist loose, and rest often. If anything hurts, stop, choose a smaller span, and ask your teacher or a clinician.",
            "{0} prese su {1} aprono una mano oltre l’ottava. Arpeggiale invece di tenerle, tieni il polso sciolto e riposa spesso. Se qualcosa fa male, fermati, scegli un’apertura minore e chiedi all’insegnante o a un medico.",
            "{0} von {1} Griffen öffnen eine Hand weiter als eine Oktave. Brechen statt halten, das Handgelenk locker lassen und oft ausruhen. Wenn etwas schmerzt, aufhören, eine kleinere Spanne wählen und Lehrer oder Arzt fragen.",
            "{0} poignées sur {1} ouvrent une main plus qu’une octave. Arpégez-les au lieu de les tenir, gardez le poignet souple et reposez-vous souvent. Si quelque chose fait mal, arrêtez, choisissez une étendue plus petite et consultez votre professeur ou un médecin.",
            "{0} de {1} posturas abren una mano más de una octava. Arpégialas en vez de mantenerlas, con la muñeca suelta, y descansa a menudo. Si algo duele, para, elige una extensión menor y consulta a tu profesor o a un médico."
        ),
        [&strain.wide, &strain.handfuls],
    )
}

/// What two hands cannot do, as one sentence, chords counted from 1.
pub fn hardship(hardship: &Hardship, lang: Lang) -> String {
    let hand = the_hand(hardship.hand, lang);
    let what = match hardship.kind {
        HardshipKind::TooManyKeys { count } => lang.tell(
            phrase!(
                "{0} holds {1} keys at once",
                "{0} tiene {1} tasti insieme",
                "{0} hält {1} Tasten zugleich",
                "{0} tient {1} touches à la fois",
                "{0} mantiene {1} teclas a la vez"
            ),
            [&hand, &count],
        ),
        HardshipKind::TooWide { needs, limit } => lang.tell(
            phrase!(
                "{0} holds {1} at once, past your limit of {2}",
                "{0} tiene insieme {1}, oltre il tuo limite di {2}",
                "{0} hält zugleich {1}, über Ihre Grenze hinaus ({2})",
                "{0} tient à la fois {1}, au-delà de votre limite ({2})",
                "{0} mantiene a la vez {1}, más allá de tu límite ({2})"
            ),
            [
                &hand,
                &interval(needs.clamp(0, 255) as u8, lang),
                &interval(limit.clamp(0, 255) as u8, lang),
            ],
        ),
        HardshipKind::HandsCross => lang
            .say(phrase!(
                "the hands cross",
                "le mani si incrociano",
                "die Hände kreuzen sich",
                "les mains se croisent",
                "las manos se cruzan"
            ))
            .into(),
        HardshipKind::AlreadyDown { key: _ } => lang.tell(
            phrase!(
                "{0} strikes a key that is still down",
                "{0} batte un tasto ancora abbassato",
                "{0} schlägt eine Taste an, die noch unten ist",
                "{0} frappe une touche encore enfoncée",
                "{0} toca una tecla que aún está bajada"
            ),
            [&hand],
        ),
        HardshipKind::TooFast { needs, has } => lang.tell(
            phrase!(
                "{0} must shift in {1} ms and needs {2}",
                "{0} deve spostarsi in {1} ms e ne richiede {2}",
                "{0} muss in {1} ms versetzen und braucht {2}",
                "{0} doit se déplacer en {1} ms et en demande {2}",
                "{0} debe desplazarse en {1} ms y necesita {2}"
            ),
            [&hand, &(has.0 / 1000), &needs.0.div_ceil(1000)],
        ),
    };
    at_chord(hardship.chord, &what, lang)
}

fn trouble(trouble: &HandTrouble, lang: Lang) -> String {
    let fixed = match trouble {
        HandTrouble::BassOffKeyboard => phrase!(
            "your keyboard does not have the bass note",
            "la tua tastiera non ha la nota del basso",
            "Ihre Tastatur hat den Basston nicht",
            "votre clavier n’a pas la note de basse",
            "tu teclado no tiene la nota del bajo"
        ),
        HandTrouble::SopranoOffKeyboard => phrase!(
            "your keyboard does not have the soprano note",
            "la tua tastiera non ha la nota del soprano",
            "Ihre Tastatur hat den Sopranton nicht",
            "votre clavier n’a pas la note du soprano",
            "tu teclado no tiene la nota del soprano"
        ),
        HandTrouble::HandsCollide => phrase!(
            "the soprano leaves no room above the bass, so the hands are in each other’s way",
            "il soprano non lascia spazio sopra il basso, perciò le mani si intralciano",
            "der Sopran lässt über dem Bass keinen Platz, darum sind die Hände einander im Weg",
            "le soprano ne laisse pas de place au-dessus de la basse : les mains se gênent",
            "el soprano no deja sitio sobre el bajo, así que las manos se estorban"
        ),
        HandTrouble::LeftOut { count: 1 } => phrase!(
            "one of your own notes no longer fits between bass and soprano and was left out",
            "una delle tue note non sta più tra basso e soprano ed è stata omessa",
            "einer Ihrer eigenen Töne passt nicht mehr zwischen Bass und Sopran und blieb weg",
            "une de vos notes ne tient plus entre basse et soprano et a été omise",
            "una de tus notas ya no cabe entre bajo y soprano y se omitió"
        ),
        HandTrouble::InnerOffKeyboard { pitch } => {
            return lang.tell(
                phrase!(
                    "your keyboard does not have {0}",
                    "la tua tastiera non ha {0}",
                    "Ihre Tastatur hat {0} nicht",
                    "votre clavier n’a pas {0}",
                    "tu teclado no tiene {0}"
                ),
                [&lang.pitch(*pitch)],
            );
        }
        HandTrouble::Incomplete { missing } => {
            return lang.tell(
                phrase!(
                    "{0} belongs to the chord and found no finger within your span",
                    "{0} fa parte dell’accordo e non ha trovato un dito nella tua apertura",
                    "{0} gehört zum Akkord und fand in Ihrer Spanne keinen Finger",
                    "{0} fait partie de l’accord et n’a pas trouvé de doigt dans votre étendue",
                    "{0} pertenece al acorde y no encontró dedo en tu extensión"
                ),
                [&lang.note(*missing)],
            );
        }
        HandTrouble::DoubledDuty { class } => {
            return lang.tell(
                phrase!(
                    "{0} has its own way to go and is better not doubled",
                    "{0} ha la sua via da seguire ed è meglio non raddoppiarlo",
                    "{0} hat seinen eigenen Weg und wird besser nicht verdoppelt",
                    "{0} a son propre chemin et mieux vaut ne pas le doubler",
                    "{0} tiene su propio camino y es mejor no duplicarlo"
                ),
                [&lang.note(*class)],
            );
        }
        HandTrouble::Foreign { pitch } => {
            return lang.tell(
                phrase!(
                    "{0} is no note of the chord",
                    "{0} non è una nota dell’accordo",
                    "{0} ist kein Ton des Akkords",
                    "{0} n’est pas une note de l’accord",
                    "{0} no es una nota del acorde"
                ),
                [&lang.note(pitch.class())],
            );
        }
        HandTrouble::TooWide { hand, needs, limit } => {
            return lang.tell(
                phrase!(
                    "{0} must reach {1}, and your limit is {2}; roll it without stretching, or leave a note out",
                    "{0} deve coprire {1}, e il tuo limite è {2}; arpeggia senza stirarti, o lascia una nota",
                    "{0} muss {1} greifen, und Ihre Grenze ist {2}; ohne Strecken brechen oder einen Ton weglassen",
                    "{0} doit couvrir {1}, et votre limite est {2} ; arpégez sans forcer, ou laissez une note",
                    "{0} debe abarcar {1}, y tu límite es {2}; arpegia sin forzar, o deja una nota"
                ),
                [&the_hand(*hand, lang), &interval(*needs, lang), &interval(*limit, lang)],
            );
        }
        HandTrouble::TooMany { hand, count } => {
            return lang.tell(
                phrase!(
                    "{0} would take {1} notes, and it has five fingers",
                    "{0} dovrebbe prendere {1} note, e ha cinque dita",
                    "{0} müsste {1} Töne nehmen und hat fünf Finger",
                    "{0} devrait prendre {1} notes, et elle a cinq doigts",
                    "{0} tendría que tomar {1} notas, y tiene cinco dedos"
                ),
                [&the_hand(*hand, lang), count],
            );
        }
        HandTrouble::LeftOut { count } => {
            return lang.tell(
                phrase!(
                    "{0} of your own notes no longer fit between bass and soprano and were left out",
                    "{0} delle tue note non stanno più tra basso e soprano e sono state omesse",
                    "{0} Ihrer eigenen Töne passen nicht mehr zwischen Bass und Sopran und blieben weg",
                    "{0} de vos notes ne tiennent plus entre basse et soprano et ont été omises",
                    "{0} de tus notas ya no caben entre bajo y soprano y se omitieron"
                ),
                [count],
            );
        }
    };
    lang.say(fixed).to_string()
}

/// "the left hand", as the subject of a sentence.
pub(super) fn the_hand(hand: Hand, lang: Lang) -> &'static str {
    lang.say(match hand {
        Hand::Left => phrase!(
            "the left hand",
            "la mano sinistra",
            "die linke Hand",
            "la main gauche",
            "la mano izquierda"
        ),
        Hand::Right => phrase!(
            "the right hand",
            "la mano destra",
            "die rechte Hand",
            "la main droite",
            "la mano derecha"
        ),
    })
}

/// The interval a hand spans, with its article, from half white keys, rounded up.
fn interval(half_keys: u8, lang: Lang) -> String {
    let steps = usize::from(half_keys).div_ceil(2);
    lang.say(match steps {
        0 => phrase!("a unison", "un unisono", "einen Einklang", "un unisson", "un unísono"),
        1 => phrase!("a second", "una seconda", "eine Sekunde", "une seconde", "una segunda"),
        2 => phrase!("a third", "una terza", "eine Terz", "une tierce", "una tercera"),
        3 => phrase!("a fourth", "una quarta", "eine Quarte", "une quarte", "una cuarta"),
        4 => phrase!("a fifth", "una quinta", "eine Quinte", "une quinte", "una quinta"),
        5 => phrase!("a sixth", "una sesta", "eine Sexte", "une sixte", "una sexta"),
        6 => phrase!("a seventh", "una settima", "eine Septime", "une septième", "una séptima"),
        7 => phrase!("an octave", "un’ottava", "eine Oktave", "une octave", "una octava"),
        8 => phrase!("a ninth", "una nona", "eine None", "une neuvième", "una novena"),
        9 => phrase!("a tenth", "una decima", "eine Dezime", "une dixième", "una décima"),
        10 => {
            phrase!("an eleventh", "un’undicesima", "eine Undezime", "une onzième", "una undécima")
        }
        11 => phrase!(
            "a twelfth",
            "una dodicesima",
            "eine Duodezime",
            "une douzième",
            "una duodécima"
        ),
        12 => phrase!(
            "a thirteenth",
            "una tredicesima",
            "eine Tredezime",
            "une treizième",
            "una decimotercera"
        ),
        13 => phrase!(
            "a fourteenth",
            "una quattordicesima",
            "eine Quartdezime",
            "une quatorzième",
            "una decimocuarta"
        ),
        14 => phrase!(
            "a double octave",
            "una doppia ottava",
            "eine Doppeloktave",
            "une double octave",
            "una doble octava"
        ),
        _ => {
            return lang.tell(
                phrase!(
                    "a reach of {0} white keys",
                    "un’apertura di {0} tasti bianchi",
                    "eine Spanne von {0} weißen Tasten",
                    "une étendue de {0} touches blanches",
                    "una extensión de {0} teclas blancas"
                ),
                [&(steps + 1)],
            );
        }
    })
    .to_string()
}
