//! The settings of an exercise, in words.

use crate::files::QrError;
use crate::lesson::{Feedback, Hears, Opens, Telling};
use crate::phrase;
use crate::words::Lang;

/// When feedback comes, as one sentence.
pub fn feedback(feedback: Feedback, lang: Lang) -> &'static str {
    lang.say(match feedback {
        Feedback::Live => phrase!(
            "Faults are shown as you work.",
            "Gli errori si mostrano mentre lavori.",
            "Fehler werden während der Arbeit gezeigt.",
            "Les fautes se montrent pendant le travail.",
            "Las faltas se muestran mientras trabajas."
        ),
        Feedback::OnRequest => phrase!(
            "Faults are shown when you ask.",
            "Gli errori si mostrano a richiesta.",
            "Fehler werden auf Verlangen gezeigt.",
            "Les fautes se montrent à la demande.",
            "Las faltas se muestran cuando las pides."
        ),
        Feedback::AtEnd => phrase!(
            "Faults are shown after you hand in.",
            "Gli errori si mostrano dopo la consegna.",
            "Fehler werden nach dem Abgeben gezeigt.",
            "Les fautes se montrent après la remise.",
            "Las faltas se muestran después de entregar."
        ),
    })
}

/// How much a finding gives away, as one sentence.
pub fn telling(telling: Telling, lang: Lang) -> &'static str {
    lang.say(match telling {
        Telling::AtOnce => phrase!(
            "A fault is told with what belongs there.",
            "Un errore è detto insieme a ciò che ci va.",
            "Ein Fehler wird mit dem gesagt, was hingehört.",
            "Une faute est dite avec ce qui convient.",
            "Una falta se dice junto con lo que corresponde."
        ),
        Telling::InSteps => phrase!(
            "A fault is told by place and kind; more of it on request.",
            "Un errore è detto per luogo e genere; il resto a richiesta.",
            "Ein Fehler wird nach Ort und Art genannt, mehr auf Wunsch.",
            "Une faute est dite par son lieu et son genre ; le reste à la demande.",
            "Una falta se dice por lugar y clase; lo demás, si se pide."
        ),
        Telling::PlaceAlone => phrase!(
            "A fault is told by place and kind, the rest after handing in.",
            "Un errore è detto per luogo e genere, il resto dopo la consegna.",
            "Ein Fehler wird nach Ort und Art genannt, der Rest nach der Abgabe.",
            "Une faute est dite par son lieu et son genre, le reste après la remise.",
            "Una falta se dice por lugar y clase; lo demás, tras la entrega."
        ),
    })
}

/// What may be heard, as one sentence.
pub fn hears(hears: Hears, lang: Lang) -> &'static str {
    lang.say(match hears {
        Hears::OwnWork => phrase!(
            "You hear only what you make.",
            "Senti solo ciò che fai.",
            "Zu hören ist nur die eigene Arbeit.",
            "Vous n’entendez que ce que vous faites.",
            "Solo oyes lo que haces."
        ),
        Hears::Bass => phrase!(
            "You may hear the bass.",
            "Puoi ascoltare il basso.",
            "Der Bass darf angehört werden.",
            "Vous pouvez écouter la basse.",
            "Puedes escuchar el bajo."
        ),
        Hears::Model => phrase!(
            "You may hear the bass and the model.",
            "Puoi ascoltare il basso e il modello.",
            "Bass und Muster dürfen angehört werden.",
            "Vous pouvez écouter la basse et le modèle.",
            "Puedes escuchar el bajo y el modelo."
        ),
    })
}

/// When the model may be opened, as one sentence.
pub fn opens(opens: Opens, lang: Lang) -> &'static str {
    lang.say(match opens {
        Opens::Anytime => phrase!(
            "The model may be opened at any time.",
            "Il modello si può aprire in ogni momento.",
            "Das Muster darf jederzeit geöffnet werden.",
            "Le modèle peut s’ouvrir à tout moment.",
            "El modelo puede abrirse en cualquier momento."
        ),
        Opens::AfterTrying => phrase!(
            "The model may be opened once the work has been checked.",
            "Il modello si può aprire dopo un controllo del lavoro.",
            "Das Muster darf nach einer Prüfung der Arbeit geöffnet werden.",
            "Le modèle peut s’ouvrir une fois le travail vérifié.",
            "El modelo puede abrirse tras comprobar el trabajo."
        ),
        Opens::AfterHandIn => phrase!(
            "The model may be opened once the work has been handed in.",
            "Il modello si può aprire dopo la consegna.",
            "Das Muster darf nach dem Abgeben geöffnet werden.",
            "Le modèle peut s’ouvrir une fois le travail rendu.",
            "El modelo puede abrirse tras entregar el trabajo."
        ),
    })
}

/// What the seal on a model answer does and does not, for the teacher.
pub fn sealed(lang: Lang) -> &'static str {
    lang.say(phrase!(
        "The model is sealed from a passing look, not locked: the link carries it scrambled, and the page shows it only when you allow. Someone who takes the page apart can read it. Leave it out where that would matter.",
        "Il modello è sigillato contro uno sguardo di passaggio, non chiuso a chiave: il collegamento lo porta rimescolato, e la pagina lo mostra solo quando lo permetti. Chi smonta la pagina può leggerlo. Non includerlo dove questo conta.",
        "Das Muster ist gegen einen flüchtigen Blick versiegelt, nicht verschlossen: Der Link trägt es durcheinandergewürfelt, und die Seite zeigt es erst, wenn Sie es erlauben. Wer die Seite zerlegt, kann es lesen. Lassen Sie es weg, wo das etwas ausmacht.",
        "Le modèle est scellé contre un regard en passant, non verrouillé : le lien le porte brouillé, et la page ne le montre que quand vous le permettez. Qui démonte la page peut le lire. Ne le joignez pas là où cela compterait.",
        "El modelo está sellado ante una mirada de paso, no bajo llave: el enlace lo lleva revuelto, y la página solo lo muestra cuando lo permites. Quien desmonte la página puede leerlo. No lo incluyas donde eso importe."
    ))
}

/// Why a text is no QR code, as one sentence.
pub fn qr_error(error: QrError, lang: Lang) -> String {
    match error {
        QrError::TooLong { bytes } => lang.tell(
            phrase!(
                "This link has {0} characters, more than a QR code holds. Share the link or the file itself, or put fewer exercises into the set.",
                "Questo collegamento ha {0} caratteri, più di quanti ne contenga un codice QR. Condividi il collegamento o il file, o metti meno esercizi nella serie.",
                "Dieser Link hat {0} Zeichen, mehr als ein QR-Code fasst. Teilen Sie den Link oder die Datei selbst, oder legen Sie weniger Aufgaben in die Reihe.",
                "Ce lien a {0} caractères, plus que n’en contient un code QR. Partagez le lien ou le fichier lui-même, ou mettez moins d’exercices dans la série.",
                "Este enlace tiene {0} caracteres, más de los que caben en un código QR. Comparte el enlace o el archivo, o pon menos ejercicios en la serie."
            ),
            [&bytes],
        ),
    }
}
