//! What is wrong with a link or a file, in sentences.

use super::Lang;
use crate::files::{
    BringError, BringRemark, FileKind, LinkError, MAX_FILE, MAX_NOTES, OtherKind, PartName,
    SheetTrouble,
};
use crate::phrase;

/// Why a link could not be opened, and what to do, in one or two sentences.
pub fn link_error(error: LinkError, lang: Lang) -> &'static str {
    lang.say(match error {
        LinkError::Empty => phrase!(
            "This link holds no piece.",
            "Questo collegamento non contiene alcun pezzo.",
            "Dieser Link enthält kein Stück.",
            "Ce lien ne contient aucune pièce.",
            "Este enlace no contiene ninguna pieza."
        ),
        LinkError::Foreign => phrase!(
            "This link was not made here, so it holds no piece.",
            "Questo collegamento non è stato fatto qui, perciò non contiene alcun pezzo.",
            "Dieser Link wurde nicht hier gemacht und enthält kein Stück.",
            "Ce lien n’a pas été fait ici et ne contient donc aucune pièce.",
            "Este enlace no se hizo aquí, así que no contiene ninguna pieza."
        ),
        LinkError::Newer => phrase!(
            "This link was made by a newer version of this page. Open it with that version.",
            "Questo collegamento è stato fatto da una versione più recente della pagina. Aprilo con quella.",
            "Dieser Link stammt von einer neueren Fassung dieser Seite. Öffnen Sie ihn mit dieser.",
            "Ce lien a été fait par une version plus récente de cette page. Ouvrez-le avec elle.",
            "Este enlace lo hizo una versión más reciente de esta página. Ábrelo con ella."
        ),
        LinkError::CutShort => phrase!(
            "This link is cut short: its end is missing. Copy it again in full.",
            "Questo collegamento è tronco: manca la fine. Copialo di nuovo per intero.",
            "Dieser Link ist abgeschnitten: Sein Ende fehlt. Kopieren Sie ihn noch einmal ganz.",
            "Ce lien est coupé : sa fin manque. Copiez-le de nouveau en entier.",
            "Este enlace está cortado: le falta el final. Cópialo de nuevo entero."
        ),
        LinkError::Damaged => phrase!(
            "This link was changed on the way and cannot be trusted. Copy it again.",
            "Questo collegamento è stato alterato per strada e non è affidabile. Copialo di nuovo.",
            "Dieser Link wurde unterwegs verändert und ist nicht verlässlich. Kopieren Sie ihn noch einmal.",
            "Ce lien a été modifié en route et n’est pas fiable. Copiez-le de nouveau.",
            "Este enlace se alteró por el camino y no es fiable. Cópialo de nuevo."
        ),
        LinkError::TooLong => phrase!(
            "This link is longer than any piece needs. Ask for the piece as a file or a saved page instead.",
            "Questo collegamento è più lungo di quanto serva a qualsiasi pezzo. Fatti mandare il pezzo come file o come pagina salvata.",
            "Dieser Link ist länger, als irgendein Stück es braucht. Lassen Sie sich das Stück als Datei oder als gespeicherte Seite geben.",
            "Ce lien est plus long que n’en demande aucune pièce. Demandez la pièce sous forme de fichier ou de page enregistrée.",
            "Este enlace es más largo de lo que necesita cualquier pieza. Pide la pieza como archivo o como página guardada."
        ),
    })
}

/// What is wrong with a piece of text that was to be read as a sketch.
pub fn sheet_trouble(trouble: SheetTrouble, lang: Lang) -> String {
    let fixed = match trouble {
        SheetTrouble::Bass(trouble) => return super::text_trouble(trouble, lang),
        SheetTrouble::Pin => phrase!(
            "A fixed soprano note is written as the bass note’s number and the pitch, as in 5:F4.",
            "Una nota fissata del soprano si scrive con il numero della nota del basso e l’altezza, come 5:F4.",
            "Ein festgelegter Sopranton wird mit der Nummer des Basstons und der Tonhöhe geschrieben, wie 5:F4.",
            "Une note fixée du soprano s’écrit par le numéro de la note de basse et la hauteur, comme 5:F4.",
            "Una nota fijada del soprano se escribe con el número de la nota del bajo y la altura, como 5:F4."
        ),
        SheetTrouble::PinBeyond => phrase!(
            "The bass has no note of this number to fix a soprano over.",
            "Il basso non ha una nota con questo numero su cui fissare un soprano.",
            "Der Bass hat keinen Ton dieser Nummer, über dem ein Sopran festzulegen wäre.",
            "La basse n’a pas de note de ce numéro sur laquelle fixer un soprano.",
            "El bajo no tiene una nota con este número sobre la que fijar un soprano."
        ),
        SheetTrouble::Settings(LinkError::Newer) => phrase!(
            "This line of settings was made by a newer version of this page. The notes are read without it.",
            "Questa riga di impostazioni viene da una versione più recente della pagina. Le note si leggono senza.",
            "Diese Zeile mit Einstellungen stammt von einer neueren Fassung dieser Seite. Die Noten werden ohne sie gelesen.",
            "Cette ligne de réglages vient d’une version plus récente de cette page. Les notes sont lues sans elle.",
            "Esta línea de ajustes la hizo una versión más reciente de esta página. Las notas se leen sin ella."
        ),
        SheetTrouble::Settings(_) => phrase!(
            "This line of settings was cut short or changed on the way. The notes are read without it.",
            "Questa riga di impostazioni è tronca o alterata. Le note si leggono senza.",
            "Diese Zeile mit Einstellungen wurde abgeschnitten oder verändert. Die Noten werden ohne sie gelesen.",
            "Cette ligne de réglages a été coupée ou modifiée. Les notes sont lues sans elle.",
            "Esta línea de ajustes se cortó o se alteró. Las notas se leen sin ella."
        ),
        SheetTrouble::OtherBass => phrase!(
            "These settings were made for a bass of another length; what they say of single notes is left out.",
            "Queste impostazioni erano per un basso di altra lunghezza; ciò che dicono di singole note si omette.",
            "Diese Einstellungen galten einem Bass anderer Länge; was sie über einzelne Töne sagen, bleibt weg.",
            "Ces réglages étaient faits pour une basse d’une autre longueur ; ce qu’ils disent de notes isolées est omis.",
            "Estos ajustes eran para un bajo de otra longitud; lo que dicen de notas sueltas se omite."
        ),
    };
    lang.say(fixed).to_string()
}

/// What a part of a score or a MIDI file is called.
pub fn part_name(name: &PartName, lang: Lang) -> String {
    let named = |name: &str| {
        let unnamed = lang.say(phrase!("Part", "Parte", "Stimme", "Partie", "Parte"));
        if name.is_empty() { unnamed } else { name }.to_string()
    };
    match name {
        PartName::Named(name) => named(name),
        PartName::Staff(name, staff) => lang.tell(
            phrase!(
                "{0}, staff {1}",
                "{0}, pentagramma {1}",
                "{0}, System {1}",
                "{0}, portée {1}",
                "{0}, pentagrama {1}"
            ),
            [&named(name), staff],
        ),
        PartName::Channel(name, channel) => lang.tell(
            phrase!(
                "{0}, channel {1}",
                "{0}, canale {1}",
                "{0}, Kanal {1}",
                "{0}, canal {1}",
                "{0}, canal {1}"
            ),
            [&named(name), channel],
        ),
        PartName::All => lang
            .say(phrase!(
                "The lowest note of all parts",
                "La nota più grave di tutte le parti",
                "Der tiefste Ton aller Stimmen",
                "La note la plus grave de toutes les parties",
                "La nota más grave de todas las partes"
            ))
            .to_string(),
    }
}

/// What could not be taken from a file that was read otherwise.
pub fn bring_remark(remark: &BringRemark, lang: Lang) -> String {
    match remark {
        BringRemark::Shortened => lang.tell(
            phrase!(
                "The file has more than {0} bass notes; the first {0} are taken.",
                "Il file ha più di {0} note di basso; si prendono le prime {0}.",
                "Die Datei hat mehr als {0} Basstöne; die ersten {0} werden genommen.",
                "Le fichier a plus de {0} notes de basse ; les {0} premières sont prises.",
                "El archivo tiene más de {0} notas de bajo; se toman las primeras {0}."
            ),
            [&MAX_NOTES],
        ),
        BringRemark::Text(remark) => sheet_trouble(remark.kind, lang),
    }
}

/// Why a file was not taken: what was expected and what was found.
pub fn bring_error(error: &BringError, lang: Lang) -> String {
    let megabytes = MAX_FILE / (1024 * 1024);
    let expected = lang.say(phrase!(
        "A MusicXML score, a MIDI file, a bass as text, a saved page or a link was expected",
        "Si aspettava una partitura MusicXML, un file MIDI, un basso come testo, una pagina salvata o un collegamento",
        "Erwartet wurde eine MusicXML-Partitur, eine MIDI-Datei, ein Bass als Text, eine gespeicherte Seite oder ein Link",
        "On attendait une partition MusicXML, un fichier MIDI, une basse en texte, une page enregistrée ou un lien",
        "Se esperaba una partitura MusicXML, un archivo MIDI, un bajo como texto, una página guardada o un enlace"
    ));
    let fixed = match error {
        BringError::Empty => {
            return lang.tell(
                phrase!(
                    "{0}, and the file is empty.",
                    "{0}, e il file è vuoto.",
                    "{0}, und die Datei ist leer.",
                    "{0}, et le fichier est vide.",
                    "{0}, y el archivo está vacío."
                ),
                [&expected],
            );
        }
        BringError::TooLarge => {
            return lang.tell(
                phrase!(
                    "{0}, and the file is larger than {1} MB.",
                    "{0}, e il file supera {1} MB.",
                    "{0}, und die Datei ist größer als {1} MB.",
                    "{0}, et le fichier dépasse {1} Mo.",
                    "{0}, y el archivo supera {1} MB."
                ),
                [&expected, &megabytes],
            );
        }
        BringError::Other(other) => {
            return lang.tell(
                phrase!(
                    "{0}, and the file holds {1}.",
                    "{0}, e il file contiene {1}.",
                    "{0}, und die Datei enthält {1}.",
                    "{0}, et le fichier contient {1}.",
                    "{0}, y el archivo contiene {1}."
                ),
                [&expected, &other_kind(other, lang)],
            );
        }
        BringError::BrokenScore(line) => {
            return lang.tell(
                phrase!(
                    "A whole MusicXML score was expected, and this one breaks off or is damaged at line {0}.",
                    "Si aspettava una partitura MusicXML intera, e questa si interrompe o è danneggiata alla riga {0}.",
                    "Erwartet wurde eine ganze MusicXML-Partitur, und diese bricht in Zeile {0} ab oder ist dort beschädigt.",
                    "On attendait une partition MusicXML entière, et celle-ci s’interrompt ou est abîmée à la ligne {0}.",
                    "Se esperaba una partitura MusicXML entera, y esta se interrumpe o está dañada en la línea {0}."
                ),
                [line],
            );
        }
        BringError::PackTooLarge => {
            return lang.tell(
                phrase!(
                    "A packed score (.mxl) was expected, and this one unpacks to more than {0} MB.",
                    "Si aspettava una partitura compressa (.mxl), e questa espansa supera {0} MB.",
                    "Erwartet wurde eine gepackte Partitur (.mxl), und diese ist entpackt größer als {0} MB.",
                    "On attendait une partition compressée (.mxl), et celle-ci dépasse {0} Mo une fois ouverte.",
                    "Se esperaba una partitura comprimida (.mxl), y esta supera {0} MB al abrirse."
                ),
                [&megabytes],
            );
        }
        BringError::Lesson => phrase!(
            "One piece was expected, and the file holds exercises, answers or several links.",
            "Si aspettava un solo pezzo, e il file contiene esercizi, risposte o più collegamenti.",
            "Erwartet wurde ein einzelnes Stück, und die Datei enthält Aufgaben, Antworten oder mehrere Links.",
            "On attendait une seule pièce, et le fichier contient des exercices, des réponses ou plusieurs liens.",
            "Se esperaba una sola pieza, y el archivo contiene ejercicios, respuestas o varios enlaces."
        ),
        BringError::Link(error) => return link_error(*error, lang).to_string(),
        BringError::TooDeep => phrase!(
            "A MusicXML score was expected, and the file nests its elements deeper than any score does.",
            "Si aspettava una partitura MusicXML, e il file annida gli elementi più di qualsiasi partitura.",
            "Erwartet wurde eine MusicXML-Partitur, und die Datei verschachtelt ihre Elemente tiefer als jede Partitur.",
            "On attendait une partition MusicXML, et le fichier imbrique ses éléments plus que toute partition.",
            "Se esperaba una partitura MusicXML, y el archivo anida sus elementos más que cualquier partitura."
        ),
        BringError::BrokenPack => phrase!(
            "A packed score (.mxl) was expected, and the archive is damaged.",
            "Si aspettava una partitura compressa (.mxl), e l’archivio è danneggiato.",
            "Erwartet wurde eine gepackte Partitur (.mxl), und das Archiv ist beschädigt.",
            "On attendait une partition compressée (.mxl), et l’archive est abîmée.",
            "Se esperaba una partitura comprimida (.mxl), y el archivo está dañado."
        ),
        BringError::NoScoreInPack => phrase!(
            "A packed score (.mxl) was expected, and the archive holds no score.",
            "Si aspettava una partitura compressa (.mxl), e l’archivio non contiene alcuna partitura.",
            "Erwartet wurde eine gepackte Partitur (.mxl), und das Archiv enthält keine Partitur.",
            "On attendait une partition compressée (.mxl), et l’archive n’en contient pas.",
            "Se esperaba una partitura comprimida (.mxl), y el archivo no contiene ninguna."
        ),
        BringError::BrokenMidi => phrase!(
            "A MIDI file was expected, and this one is damaged.",
            "Si aspettava un file MIDI, e questo è danneggiato.",
            "Erwartet wurde eine MIDI-Datei, und diese ist beschädigt.",
            "On attendait un fichier MIDI, et celui-ci est abîmé.",
            "Se esperaba un archivo MIDI, y este está dañado."
        ),
        BringError::NoNotes(FileKind::Midi) => phrase!(
            "Notes were expected, and the MIDI file holds none.",
            "Si aspettavano note, e il file MIDI non ne contiene.",
            "Erwartet wurden Noten, und die MIDI-Datei enthält keine.",
            "On attendait des notes, et le fichier MIDI n’en contient pas.",
            "Se esperaban notas, y el archivo MIDI no contiene ninguna."
        ),
        BringError::NoNotes(_) => phrase!(
            "Notes were expected, and the score holds none.",
            "Si aspettavano note, e la partitura non ne contiene.",
            "Erwartet wurden Noten, und die Partitur enthält keine.",
            "On attendait des notes, et la partition n’en contient pas.",
            "Se esperaban notas, y la partitura no contiene ninguna."
        ),
        BringError::EmptyPage => phrase!(
            "A page saved with a piece was expected, and this one holds none.",
            "Si aspettava una pagina salvata con un pezzo, e questa non ne contiene.",
            "Erwartet wurde eine mit einem Stück gespeicherte Seite, und diese enthält keines.",
            "On attendait une page enregistrée avec une pièce, et celle-ci n’en contient pas.",
            "Se esperaba una página guardada con una pieza, y esta no contiene ninguna."
        ),
    };
    lang.say(fixed).to_string()
}

fn other_kind(other: &OtherKind, lang: Lang) -> String {
    let fixed = match other {
        OtherKind::Xml(name) if !name.is_empty() => {
            return lang.tell(
                phrase!(
                    "XML that begins with <{0}>",
                    "XML che comincia con <{0}>",
                    "XML, das mit <{0}> beginnt",
                    "du XML qui commence par <{0}>",
                    "XML que empieza con <{0}>"
                ),
                [name],
            );
        }
        OtherKind::Picture => {
            phrase!("a picture", "un’immagine", "ein Bild", "une image", "una imagen")
        }
        OtherKind::Pdf => phrase!(
            "a PDF document",
            "un documento PDF",
            "ein PDF-Dokument",
            "un document PDF",
            "un documento PDF"
        ),
        OtherKind::Sound => phrase!(
            "recorded sound",
            "suono registrato",
            "aufgenommenen Klang",
            "du son enregistré",
            "sonido grabado"
        ),
        OtherKind::Page => phrase!(
            "a web page of something else",
            "una pagina web d’altro",
            "eine andere Webseite",
            "une autre page web",
            "otra página web"
        ),
        OtherKind::Xml(_) => phrase!(
            "markup without an element",
            "marcatura senza elementi",
            "Auszeichnung ohne Element",
            "un balisage sans élément",
            "marcado sin elementos"
        ),
        OtherKind::Text => phrase!(
            "text in which no bass can be found",
            "un testo in cui non si trova alcun basso",
            "Text, in dem sich kein Bass findet",
            "un texte où l’on ne trouve aucune basse",
            "un texto en el que no se encuentra ningún bajo"
        ),
        OtherKind::Unknown => phrase!(
            "data of no kind that is known here",
            "dati di un genere qui sconosciuto",
            "Daten einer hier unbekannten Art",
            "des données d’un genre inconnu ici",
            "datos de un tipo desconocido aquí"
        ),
    };
    lang.say(fixed).to_string()
}

/// That a newer version of the page is there, and what taking it is called.
pub fn newer_page(lang: Lang) -> (&'static str, &'static str) {
    let there = phrase!(
        "A newer version of this page is ready.",
        "È pronta una versione più nuova di questa pagina.",
        "Eine neuere Version dieser Seite ist bereit.",
        "Une version plus récente de cette page est prête.",
        "Hay una versión más nueva de esta página."
    );
    let take = phrase!(
        "Use it now",
        "Usala ora",
        "Jetzt verwenden",
        "L’utiliser maintenant",
        "Usarla ahora"
    );
    (lang.say(there), lang.say(take))
}
