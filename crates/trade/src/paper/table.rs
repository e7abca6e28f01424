//! The table of papers.

use super::{Paper, Sheet, Standing};
use crate::lengths::Band;

/// A row whose sides are known to the millimetre, or nearly.
const fn exact(name: &'static str, period: Period, long: f64, short: f64) -> Paper {
    row(name, period, Band::of(long), Band::of(short))
}

const fn row(name: &'static str, period: Period, long: Band, short: Band) -> Paper {
    Paper {
        name,
        period: period.name,
        from_year: period.from_year,
        to_year: period.to_year,
        sheet: Sheet { long, short },
        source: period.source,
        standing: period.standing,
    }
}

/// A list of papers: when, and from where we have it.
#[derive(Clone, Copy)]
struct Period {
    name: &'static str,
    from_year: i32,
    to_year: i32,
    source: &'static str,
    standing: Standing,
}

/// The stone of Bologna, on which the statute sizes were cut. `realle` and `meçane` are from memory, the other two seen.
const BOLOGNA: Period = Period {
    name: "14th and 15th century, Italy",
    from_year: 1380,
    to_year: 1500,
    source: "stone of Bologna, after the National Diet Library, Incunabula, chapter 3",
    standing: Standing::Seen,
};
const BOLOGNA_MEMORY: Period = Period { standing: Standing::FromMemory, ..BOLOGNA };

/// Bands of ±15 mm at most about sizes recalled from Gaskell's lists, which could not be opened: the weakest rows here.
const HAND: Period = Period {
    name: "17th and 18th century, England",
    from_year: 1600,
    to_year: 1800,
    source: "Gaskell, A New Introduction to Bibliography, lists of sheet sizes",
    standing: Standing::FromMemory,
};
const HAND_17: Period = Period { name: "17th century, England", to_year: 1700, ..HAND };
const HAND_18: Period = Period { name: "18th century, England", from_year: 1700, ..HAND };

const WRITING: Period = Period {
    name: "19th century, England, writing paper",
    from_year: 1800,
    to_year: 1860,
    source: "Tomlinson, Cyclopaedia (1854)",
    standing: Standing::Seen,
};
const PRINTING: Period = Period {
    name: "19th century, England, printing paper",
    from_year: 1800,
    to_year: 1900,
    source: "lists of traditional sizes",
    standing: Standing::Seen,
};
const FRENCH: Period = Period {
    name: "19th century, France",
    from_year: 1800,
    to_year: 1900,
    source: "Cim, Une bibliothèque (1902), table of papers",
    standing: Standing::Seen,
};

/// Every paper, the oldest lists first, and of one list the smallest sheet first.
pub fn papers() -> &'static [Paper] {
    const PAPERS: &[Paper] = &[
        exact("reçute", BOLOGNA, 450.0, 315.0),
        exact("meçane", BOLOGNA_MEMORY, 515.0, 345.0),
        exact("realle", BOLOGNA_MEMORY, 615.0, 445.0),
        exact("imperialle", BOLOGNA, 740.0, 500.0),
        row("pot", HAND, Band::new(390.0, 400.0), Band::new(305.0, 315.0)),
        row("foolscap", HAND, Band::new(410.0, 440.0), Band::new(320.0, 345.0)),
        row("crown", HAND, Band::new(460.0, 510.0), Band::new(350.0, 385.0)),
        row("post", HAND, Band::new(470.0, 490.0), Band::new(380.0, 395.0)),
        row("demy", HAND_17, Band::new(485.0, 515.0), Band::new(365.0, 395.0)),
        row("demy", HAND_18, Band::new(515.0, 560.0), Band::new(395.0, 440.0)),
        row("medium", HAND, Band::new(530.0, 580.0), Band::new(420.0, 460.0)),
        row("royal", HAND, Band::new(590.0, 620.0), Band::new(450.0, 490.0)),
        row("super royal", HAND, Band::new(665.0, 695.0), Band::new(465.0, 495.0)),
        row("elephant", HAND, Band::new(685.0, 715.0), Band::new(565.0, 595.0)),
        row("imperial", HAND, Band::new(725.0, 755.0), Band::new(525.0, 555.0)),
        exact("pot", WRITING, 394.0, 311.0),
        exact("foolscap", WRITING, 419.0, 337.0),
        exact("post", WRITING, 483.0, 387.0),
        exact("demy", WRITING, 495.0, 387.0),
        exact("medium", WRITING, 565.0, 438.0),
        exact("royal", WRITING, 597.0, 483.0),
        exact("super royal", WRITING, 692.0, 489.0),
        exact("elephant", WRITING, 711.0, 584.0),
        exact("imperial", WRITING, 749.0, 546.0),
        exact("pot", PRINTING, 381.0, 318.0),
        exact("foolscap", PRINTING, 432.0, 343.0),
        exact("post", PRINTING, 489.0, 394.0),
        exact("crown", PRINTING, 508.0, 381.0),
        exact("demy", PRINTING, 572.0, 445.0),
        exact("medium", PRINTING, 584.0, 457.0),
        exact("royal", PRINTING, 635.0, 508.0),
        exact("super royal", PRINTING, 686.0, 483.0),
        exact("elephant", PRINTING, 711.0, 584.0),
        exact("imperial", PRINTING, 762.0, 559.0),
        exact("coquille", FRENCH, 560.0, 440.0),
        exact("carré", FRENCH, 560.0, 450.0),
        exact("cavalier", FRENCH, 620.0, 460.0),
        exact("raisin", FRENCH, 650.0, 500.0),
        exact("petit jésus", FRENCH, 680.0, 520.0),
        exact("jésus", FRENCH, 700.0, 550.0),
        exact("grand jésus", FRENCH, 760.0, 560.0),
        exact("colombier", FRENCH, 900.0, 630.0),
        exact("grand aigle", FRENCH, 1060.0, 750.0),
    ];
    PAPERS
}
