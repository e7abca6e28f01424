//! Single words of dating clauses, in English and Latin, as they were spelled. Common practice, no source, but where one is named.

use super::element::Anchor;
use crate::calendar::{Month, RepublicanMonth, Weekday};

/// A month by its English or Latin name, an abbreviation, or its number and -ber: 7ber is September, 8ber October, 9ber November,
/// Xber December.
pub(super) fn month(word: &str) -> Option<Month> {
    Some(match word {
        "january" | "januarie" | "januarye" | "ianuary" | "ianuarie" | "jan" | "ian" | "januar"
        | "ianuar" | "januarii" | "ianuarii" | "januarij" | "ianuarij" | "januarias" | "ianuarias"
        | "januarius" | "januari" => Month::January,
        "february" | "februarie" | "februarye" | "feb" | "febr" | "februar" | "februarii" | "februarij"
        | "februarias" | "februarius" | "februari" => Month::February,
        "march" | "marche" | "mar" | "mart" | "marc" | "martii" | "martij" | "martias" | "martius"
        | "marcii" | "marti" => Month::March,
        "april" | "aprill" | "aprile" | "aprell" | "apr" | "aprilis" | "aprilles" | "apriles" => Month::April,
        "may" | "maye" | "maie" | "maii" | "maij" | "mai" | "maias" | "maius" => Month::May,
        "june" | "iune" | "jun" | "iun" | "junii" | "iunii" | "junij" | "iunij" | "junias" | "iunias"
        | "junius" => Month::June,
        "july" | "iuly" | "julie" | "iulie" | "julye" | "jul" | "iul" | "julii" | "iulii" | "julij"
        | "iulij" | "julias" | "iulias" | "julius" | "quintilis" | "quintiles" => Month::July,
        "august" | "auguste" | "aug" | "augusti" | "augustas" | "augustus" | "sextilis" | "sextiles" => {
            Month::August
        }
        "september" | "septembre" | "sept" | "sep" | "septembris" | "septembres" | "septemb" | "7ber"
        | "7bris" | "7bre" | "viiber" | "viibris" => Month::September,
        "october" | "octobre" | "oct" | "octobris" | "octobres" | "octob" | "8ber" | "8bris" | "8bre"
        | "viiiber" | "viiibris" => Month::October,
        "november" | "novembre" | "nouember" | "nov" | "nou" | "novemb" | "novembris" | "nouembris"
        | "novembres" | "9ber" | "9bris" | "9bre" | "ixber" | "ixbris" => Month::November,
        "december" | "decembre" | "dec" | "decemb" | "decembris" | "decembres" | "10ber" | "10bris"
        | "10bre" | "xber" | "xbris" | "xbre" => Month::December,
        _ => return None,
    })
}

/// A weekday by its English name, as it was spelled.
pub(super) fn weekday(word: &str) -> Option<Weekday> {
    Some(match word {
        "monday" | "munday" | "mundaye" | "mondaye" => Weekday::Monday,
        "tuesday" | "tewsday" | "tuesdaye" | "tuisday" | "tues" => Weekday::Tuesday,
        "wednesday" | "wensday" | "wednesdaye" | "weddensday" => Weekday::Wednesday,
        "thursday" | "thursdaye" | "thirsday" | "thurs" => Weekday::Thursday,
        "friday" | "fryday" | "fridaye" | "frydaye" => Weekday::Friday,
        "saturday" | "satterday" | "saturdaye" | "satturday" => Weekday::Saturday,
        "sunday" | "sundaye" | "sonday" | "dominica" | "dominico" => Weekday::Sunday,
        _ => return None,
    })
}

/// A weekday by the planet after "die": die Lunae.
pub(super) fn latin_weekday(word: &str) -> Option<Weekday> {
    Some(match word {
        "lunae" | "lune" => Weekday::Monday,
        "martis" => Weekday::Tuesday,
        "mercurii" | "mercurij" => Weekday::Wednesday,
        "jovis" | "iovis" => Weekday::Thursday,
        "veneris" => Weekday::Friday,
        "sabbati" | "sabbato" | "sabbathi" | "saturni" => Weekday::Saturday,
        "solis" | "dominica" | "dominico" => Weekday::Sunday,
        _ => return None,
    })
}

/// A weekday by the number after "feria": the second is Monday, the sixth Friday.
pub(super) fn feria(number: u32) -> Option<Weekday> {
    Some(match number {
        1 => Weekday::Sunday,
        2 => Weekday::Monday,
        3 => Weekday::Tuesday,
        4 => Weekday::Wednesday,
        5 => Weekday::Thursday,
        6 => Weekday::Friday,
        7 => Weekday::Saturday,
        _ => return None,
    })
}

/// Kalends, Nones, Ides.
pub(super) fn anchor(word: &str) -> Option<Anchor> {
    Some(match word {
        "kal" | "cal" | "kalend" | "calend" | "kalendas" | "calendas" | "kalendis" | "calendis"
        | "kalendarum" | "calendarum" | "kalends" | "calends" | "kl" => Anchor::Kalends,
        "non" | "nonas" | "nonis" | "nonarum" | "nones" | "nonae" => Anchor::Nones,
        "id" | "idus" | "idibus" | "iduum" | "ides" | "eidus" => Anchor::Ides,
        _ => return None,
    })
}

/// A month of the French Republic.
pub(super) fn republican_month(word: &str) -> Option<RepublicanMonth> {
    use RepublicanMonth as M;
    Some(match word {
        "vendemiaire" => M::Vendemiaire,
        "brumaire" => M::Brumaire,
        "frimaire" => M::Frimaire,
        "nivose" => M::Nivose,
        "pluviose" => M::Pluviose,
        "ventose" => M::Ventose,
        "germinal" => M::Germinal,
        "floreal" => M::Floreal,
        "prairial" => M::Prairial,
        "messidor" => M::Messidor,
        "thermidor" | "fervidor" => M::Thermidor,
        "fructidor" => M::Fructidor,
        "complementaire" | "complementaires" | "complementary" | "sansculottide" | "sans-culottide" => {
            M::Complementary
        }
        _ => return None,
    })
}

/// The word "year".
pub(super) fn is_year(word: &str) -> bool {
    matches!(word, "year" | "yeare" | "yeer" | "yeere" | "years" | "yeares" | "yere" | "yeir" | "yeres")
}

/// The word "reign".
pub(super) fn is_reign(word: &str) -> bool {
    matches!(
        word,
        "reign" | "reigne" | "raign" | "raigne" | "rayne" | "reigns" | "raignes" | "regne" | "regni"
    )
}

/// Words before the name of a king, or between a number and the word "reign", that say nothing of when.
pub(super) fn is_of_reign(word: &str) -> bool {
    matches!(
        word,
        "of" | "the"
            | "our"
            | "his"
            | "her"
            | "their"
            | "your"
            | "said"
            | "late"
            | "most"
            | "gracious"
            | "dread"
            | "sovereign"
            | "soveraign"
            | "soveraigne"
            | "soueraigne"
            | "sovereigne"
            | "soveraignes"
            | "sovereigns"
            | "lord"
            | "lords"
            | "lorde"
            | "lady"
            | "ladye"
            | "king"
            | "kinge"
            | "queen"
            | "queene"
            | "kings"
            | "majesty"
            | "majesties"
            | "majestie"
            | "maiesties"
            | "maiestie"
            | "majestys"
            | "happy"
            | "blessed"
            | "and"
            | "in"
            | "by"
            | "regis"
            | "reginae"
            | "regine"
            | "regum"
            | "domini"
            | "dominae"
            | "domine"
            | "nostri"
            | "nostrae"
            | "nostre"
            | "dei"
            | "gratia"
            | "serenissimi"
            | "serenissimae"
            | "illustrissimi"
            | "excellent"
            | "et"
            | "eius"
            | "ejus"
            | "suae"
            | "sui"
    )
}

/// Words beside a day, a month or a feast that say nothing of when.
pub(super) fn is_of_day(word: &str) -> bool {
    matches!(
        word,
        "the"
            | "of"
            | "day"
            | "daye"
            | "daie"
            | "days"
            | "this"
            | "present"
            | "instant"
            | "month"
            | "moneth"
            | "monethe"
            | "die"
            | "mensis"
            | "vero"
            | "in"
            | "on"
            | "being"
            | "de"
            | "ye"
            | "le"
            | "jour"
    )
}

/// Words before the name of a saint.
pub(super) fn is_saint(word: &str) -> bool {
    matches!(
        word,
        "st" | "saint"
            | "sts"
            | "saints"
            | "s"
            | "ss"
            | "sancti"
            | "sancte"
            | "sanctae"
            | "sanctorum"
            | "sanct"
            | "sainct"
            | "beati"
            | "beatae"
            | "beate"
            | "divi"
            | "blessed"
    )
}
