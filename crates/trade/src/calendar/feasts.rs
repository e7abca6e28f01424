//! Feasts, saints' days and quarter days: when they fall, and by what words they are called.

use super::{Calendar, CalendarError, Day, advent, easter};
use julian::Month;

/// When a feast falls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Falls {
    /// On a day of the month.
    On(Month, u32),
    /// St Matthias: 24 February, in leap years also kept on the 25th (the second sixth day before the Kalends).
    Matthias,
    /// So many days after Easter Sunday, or before it if negative.
    Easter(i32),
    /// So many days after Advent Sunday.
    Advent(i32),
}

/// What a day is besides a feast.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A quarter day in England, on which rents and terms of service fell due.
    QuarterDay,
    /// A term day in Scotland.
    ScottishTerm,
    /// A feast or a saint's day.
    Feast,
}

/// A feast.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Feast {
    /// Its English name.
    pub name: &'static str,
    /// When it falls.
    pub falls: Falls,
    /// Whether it is a quarter day.
    pub kind: Kind,
    /// By what words it is called in English and Latin, in lower case, without "saint", "the", "of", "feast".
    pub(crate) words: &'static [&'static str],
}

impl Feast {
    /// The days on which it falls in a year counted from 1 January; Easter is Gregorian where the calendar is by then. One day,
    /// or for St Matthias in leap years two.
    ///
    /// # Errors
    /// A year that is not counted.
    pub fn days(&self, year: i32, calendar: Calendar) -> Result<[Option<Day>; 2], CalendarError> {
        let one = |day| Ok([Some(day), None]);
        match self.falls {
            On(month, day) => one(calendar.day(year, month, day)?),
            Matthias => {
                let first = calendar.day(year, Month::February, 24)?;
                let leap = calendar.day(year, Month::February, 29).is_ok();
                Ok([Some(first), leap.then(|| first.plus(1))])
            }
            Easter(after) => one(easter_in(year, calendar)?.plus(after)),
            Advent(after) => one(advent(year, calendar)?.plus(after)),
        }
    }

    /// A feast by its English name.
    pub fn named(name: &str) -> Option<&'static Self> {
        FEASTS.iter().find(|f| f.name.eq_ignore_ascii_case(name))
    }
}

/// Easter as it was kept under this calendar.
pub(crate) fn easter_in(year: i32, calendar: Calendar) -> Result<Day, CalendarError> {
    let gregorian = calendar.day(year, Month::March, 1).is_ok_and(|d| calendar.is_gregorian_on(d));
    easter(year, gregorian)
}

macro_rules! feasts {
    ($($name:literal $falls:expr, $kind:ident, [$($words:literal),*];)*) => {
        &[$(Feast { name: $name, falls: $falls, kind: Kind::$kind, words: &[$($words),*] }),*]
    };
}

use Falls::{Advent, Easter, Matthias, On};
use Month as M;

/// The feasts that dating clauses name. Lady Day, Michaelmas and what hangs on Easter: Brewer, *Phrase and Fable*, and
/// Tomlins, *Law-Dictionary* (1835), in excerpts; the other days are common practice, from memory.
pub const FEASTS: &[Feast] = feasts! {
    "Circumcision" On(M::January, 1), Feast, ["circumcision", "new year's", "circumcisionis", "circumcisionis domini", "new years"];
    "Epiphany" On(M::January, 6), Feast, ["epiphany", "twelfth", "epiphanie", "epiphaniae", "epiphaniae domini"];
    "St Hilary" On(M::January, 13), Feast, ["hilary", "hilarii"];
    "Conversion of St Paul" On(M::January, 25), Feast, ["conversion paul", "conversionis pauli"];
    "Candlemas" On(M::February, 2), ScottishTerm, ["candlemas", "candlemass", "purification", "purification virgin", "purification virgin mary", "purification our lady", "purificationis", "purificationis mariae"];
    "St Blaise" On(M::February, 3), Feast, ["blaise", "blasii"];
    "St Valentine" On(M::February, 14), Feast, ["valentine", "valentini"];
    "St Matthias" Matthias, Feast, ["matthias", "mathias", "matthiae", "mathie"];
    "St David" On(M::March, 1), Feast, ["david", "davidis"];
    "St Gregory" On(M::March, 12), Feast, ["gregory", "gregorii"];
    "St Patrick" On(M::March, 17), Feast, ["patrick", "patricii"];
    "Lady Day" On(M::March, 25), QuarterDay, ["lady", "our lady", "ladyday", "annunciation", "annunciation virgin", "annunciation virgin mary", "annunciation our lady", "annunciationis", "annunciationis mariae"];
    "St George" On(M::April, 23), Feast, ["george", "georgii"];
    "St Mark" On(M::April, 25), Feast, ["mark", "marci"];
    "Sts Philip and James" On(M::May, 1), Feast, ["philip and james", "may", "philippi et jacobi"];
    "Invention of the Cross" On(M::May, 3), Feast, ["invention cross", "invention holy cross", "inventionis crucis"];
    "Whitsunday term in Scotland" On(M::May, 15), ScottishTerm, ["whitsunday term scotland"];
    "St Barnabas" On(M::June, 11), Feast, ["barnabas", "barnaby", "barnabae"];
    "Midsummer" On(M::June, 24), QuarterDay, ["midsummer", "john baptist", "nativity john baptist", "johannis baptistae", "nativitatis johannis baptistae"];
    "Sts Peter and Paul" On(M::June, 29), Feast, ["peter and paul", "peter", "petri et pauli", "petri"];
    "Visitation" On(M::July, 2), Feast, ["visitation", "visitation our lady", "visitationis mariae"];
    "Translation of St Thomas" On(M::July, 7), Feast, ["translation thomas", "translationis thomae"];
    "St Swithun" On(M::July, 15), Feast, ["swithun", "swithin", "swithuni"];
    "St Margaret" On(M::July, 20), Feast, ["margaret", "margaretae"];
    "St Mary Magdalene" On(M::July, 22), Feast, ["mary magdalene", "mary magdalen", "magdalene", "magdalen", "mariae magdalenae"];
    "St James" On(M::July, 25), Feast, ["james", "jacobi"];
    "St Anne" On(M::July, 26), Feast, ["anne", "annae"];
    "Lammas" On(M::August, 1), ScottishTerm, ["lammas", "lammass", "peter chains", "ad vincula", "petri ad vincula"];
    "St Laurence" On(M::August, 10), Feast, ["laurence", "lawrence", "laurentii"];
    "Assumption" On(M::August, 15), Feast, ["assumption", "assumption our lady", "assumption virgin", "assumptionis", "assumptionis mariae"];
    "St Bartholomew" On(M::August, 24), Feast, ["bartholomew", "bartholomewtide", "bartholomaei", "bartholomei"];
    "Decollation of St John" On(M::August, 29), Feast, ["decollation", "decollation john", "decollation john baptist", "decollationis johannis"];
    "St Giles" On(M::September, 1), Feast, ["giles", "egidii"];
    "Nativity of the Virgin" On(M::September, 8), Feast, ["nativity our lady", "nativity virgin", "nativity virgin mary", "nativitatis mariae"];
    "Holy Cross" On(M::September, 14), Feast, ["holy cross", "holy rood", "holyrood", "exaltation cross", "exaltation holy cross", "exaltationis crucis"];
    "St Matthew" On(M::September, 21), Feast, ["matthew", "mathew", "matthaei", "mathei"];
    "Michaelmas" On(M::September, 29), QuarterDay, ["michaelmas", "michaelmass", "michael", "michael archangel", "michael and all angels", "michaelis", "michaelis archangeli"];
    "St Faith" On(M::October, 6), Feast, ["faith", "fidis"];
    "St Edward" On(M::October, 13), Feast, ["edward confessor", "translation edward", "edwardi confessoris"];
    "St Luke" On(M::October, 18), Feast, ["luke", "lucae", "luce"];
    "Sts Simon and Jude" On(M::October, 28), Feast, ["simon and jude", "simonis et judae"];
    "All Saints" On(M::November, 1), Feast, ["all saints", "all hallows", "allhallows", "allhallowmas", "hallowmas", "omnium sanctorum"];
    "All Souls" On(M::November, 2), Feast, ["all souls", "omnium animarum"];
    "Gunpowder Treason Day" On(M::November, 5), Feast, ["gunpowder treason", "powder treason"];
    "Martinmas" On(M::November, 11), ScottishTerm, ["martinmas", "martinmass", "martin", "martini"];
    "St Hugh" On(M::November, 17), Feast, ["hugh", "accession", "queen's", "hugonis"];
    "St Edmund the King" On(M::November, 20), Feast, ["edmund king", "edmundi regis"];
    "St Cecilia" On(M::November, 22), Feast, ["cecilia", "caeciliae"];
    "St Clement" On(M::November, 23), Feast, ["clement", "clementis"];
    "St Katherine" On(M::November, 25), Feast, ["katherine", "catherine", "katharine", "catharinae", "katherinae"];
    "St Andrew" On(M::November, 30), Feast, ["andrew", "andreae", "andree"];
    "St Nicholas" On(M::December, 6), Feast, ["nicholas", "nicolai"];
    "Conception of Our Lady" On(M::December, 8), Feast, ["conception", "conception our lady", "conceptionis mariae"];
    "St Lucy" On(M::December, 13), Feast, ["lucy", "luciae"];
    "St Thomas the Apostle" On(M::December, 21), Feast, ["thomas", "thomas apostle", "thomae", "thomae apostoli"];
    "Christmas" On(M::December, 25), QuarterDay, ["christmas", "christmass", "nativity", "nativity our lord", "nativity christ", "yule", "natalis domini", "nativitatis domini"];
    "St Stephen" On(M::December, 26), Feast, ["stephen", "stephani"];
    "St John the Evangelist" On(M::December, 27), Feast, ["john", "john evangelist", "johannis evangelistae"];
    "Holy Innocents" On(M::December, 28), Feast, ["innocents", "holy innocents", "childermas", "innocentium"];
    "St Thomas of Canterbury" On(M::December, 29), Feast, ["thomas canterbury", "thomas martyr", "thomae martyris"];
    "Septuagesima" Easter(-63), Feast, ["septuagesima", "septuagesima sunday"];
    "Shrove Sunday" Easter(-49), Feast, ["shrove sunday", "quinquagesima", "quinquagesima sunday"];
    "Shrove Tuesday" Easter(-47), Feast, ["shrove tuesday", "shrovetide"];
    "Ash Wednesday" Easter(-46), Feast, ["ash wednesday", "cinerum"];
    "Midlent Sunday" Easter(-21), Feast, ["midlent sunday", "mid-lent sunday", "midlent", "mothering sunday"];
    "Palm Sunday" Easter(-7), Feast, ["palm sunday", "palmarum", "ramis palmarum"];
    "Maundy Thursday" Easter(-3), Feast, ["maundy thursday", "cena domini", "coena domini"];
    "Good Friday" Easter(-2), Feast, ["good friday", "parasceve"];
    "Easter Eve" Easter(-1), Feast, ["easter eve", "easter even"];
    "Easter Day" Easter(0), Feast, ["easter", "easter sunday", "pasch", "paschae", "pascha", "paschatis"];
    "Easter Monday" Easter(1), Feast, ["easter monday"];
    "Easter Tuesday" Easter(2), Feast, ["easter tuesday"];
    "Low Sunday" Easter(7), Feast, ["low sunday", "quasimodo", "quasi modo"];
    "Hock Tuesday" Easter(16), Feast, ["hock tuesday", "hocktide", "hoke tuesday"];
    "Rogation Sunday" Easter(35), Feast, ["rogation sunday", "rogationtide"];
    "Ascension" Easter(39), Feast, ["ascension", "holy thursday", "ascension our lord", "ascensionis", "ascensionis domini"];
    "Whitsunday" Easter(49), Feast, ["whitsun", "whitsunday", "whitsuntide", "whit sunday", "pentecost", "pentecostes"];
    "Whit Monday" Easter(50), Feast, ["whit monday", "whitmonday", "whitsun monday"];
    "Whit Tuesday" Easter(51), Feast, ["whit tuesday", "whitsun tuesday"];
    "Trinity Sunday" Easter(56), Feast, ["trinity", "trinity sunday", "trinitatis", "sanctae trinitatis"];
    "Corpus Christi" Easter(60), Feast, ["corpus christi", "corporis christi"];
    "Advent Sunday" Advent(0), Feast, ["advent", "advent sunday"];
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn feasts_of_the_worked_years() {
        // Arithmetic from the rule of Easter by another script; England to 1752.
        let rows = [
            (1485, "3 April", "16 February", "12 May", "22 May", "29 May"),
            (1558, "10 April", "23 February", "19 May", "29 May", "5 June"),
            (1600, "23 March", "6 February", "1 May", "11 May", "18 May"),
            (1603, "24 April", "9 March", "2 June", "12 June", "19 June"),
            (1623, "13 April", "26 February", "22 May", "1 June", "8 June"),
            (1649, "25 March", "7 February", "3 May", "13 May", "20 May"),
            (1660, "22 April", "7 March", "31 May", "10 June", "17 June"),
            (1662, "30 March", "12 February", "8 May", "18 May", "25 May"),
            (1666, "15 April", "28 February", "24 May", "3 June", "10 June"),
            (1689, "31 March", "13 February", "9 May", "19 May", "26 May"),
            (1714, "28 March", "10 February", "6 May", "16 May", "23 May"),
            (1750, "15 April", "28 February", "24 May", "3 June", "10 June"),
            (1752, "29 March", "12 February", "7 May", "17 May", "24 May"),
        ];
        let british = Calendar::british();
        for (year, easter, ash, ascension, whit, trinity) in rows {
            let wanted = [
                ("Easter Day", easter),
                ("Ash Wednesday", ash),
                ("Ascension", ascension),
                ("Whitsunday", whit),
                ("Trinity Sunday", trinity),
            ];
            for (name, day) in wanted {
                let [Some(told), None] = Feast::named(name).unwrap().days(year, british).unwrap() else {
                    panic!("{name} falls once")
                };
                assert_eq!(british.date(told).to_string(), format!("{day} {year}"), "{name}");
            }
        }
    }

    #[test]
    fn matthias_in_leap_years() {
        let matthias = Feast::named("St Matthias").unwrap();
        let told = |year| matthias.days(year, Calendar::JULIAN).unwrap().iter().flatten().count();
        assert_eq!([told(1700), told(1701), told(1704)], [2, 1, 2]);
    }

    #[test]
    fn no_two_feasts_have_one_name() {
        let mut seen = std::collections::BTreeSet::new();
        for feast in FEASTS {
            for words in feast.words {
                assert!(seen.insert(*words), "{words} is said of two feasts");
                assert_eq!(*words, words.to_lowercase());
            }
        }
    }
}
