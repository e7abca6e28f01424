//! What is typed that is more than a number.

use anyhow::{Context as _, Result, bail};
use trade::presswork::{Pence, Place, Spread};

/// Ens in a sheet: a range, or the lines, ens and pages whose product they are.
pub(super) fn typed_ens(text: &str) -> Result<Spread> {
    let parts: Vec<&str> = text.split(['x', '×']).map(str::trim).collect();
    if let [_] = parts[..] {
        return Ok(Spread::parse(text)?);
    }
    let [lines, ens, pages] = parts[..] else {
        bail!(
            "\"{text}\": give lines, ens to the line and pages to the sheet, as 36x44x16, or the ens of a sheet, as 25344"
        );
    };
    let mut product = 1.0;
    for (what, part) in [("lines", lines), ("ens to the line", ens), ("pages", pages)] {
        let number: u32 = part.parse().ok().filter(|n| (1..=10_000).contains(n)).with_context(|| {
            format!(
                "\"{part}\" is no number of {what} between 1 and 10,000; write LINESxENSxPAGES, as 36x44x16"
            )
        })?;
        product *= f64::from(number);
    }
    Ok(Spread::exactly(product))
}

/// A place: `NAME=COPIES@DAYS`.
pub(super) fn place(text: &str) -> Result<Place> {
    let remedy = "write NAME=COPIES@DAYS, as Hallow=200@2..3";
    let (name, rest) = text.rsplit_once('=').with_context(|| format!("\"{text}\" has no \"=\"; {remedy}"))?;
    let (copies, days) =
        rest.split_once('@').with_context(|| format!("\"{text}\" has no \"@\"; {remedy}"))?;
    let name = name.trim();
    if name.is_empty() {
        bail!("\"{text}\" names no place; {remedy}");
    }
    let copies = copies.trim();
    let number = copies.parse().with_context(|| format!("\"{copies}\" is no number of copies; {remedy}"))?;
    let days = Spread::parse(days).with_context(|| format!("days of carriage to {name}"))?;
    Ok(Place { name: name.to_owned(), copies: number, days })
}

/// Paper that is known to have been used: reams, or what was paid for them.
pub(super) fn known_paper(text: Option<&str>, ream_price: Option<Pence>) -> Result<Option<Spread>> {
    let Some(text) = text.map(str::trim) else { return Ok(None) };
    if let Some(reams) = text.strip_suffix("reams").or_else(|| text.strip_suffix("ream")) {
        return Ok(Some(Spread::parse(reams).context("the paper known")?));
    }
    let Ok(paid) = Pence::parse(text) else {
        bail!(
            "\"{text}\" is no paper; write reams, as 20reams or 18..22reams, or the sum that was paid, as '£10'"
        );
    };
    match ream_price {
        Some(Pence(price)) if price > 0.0 => Ok(Some(Spread::exactly(paid.0 / price))),
        _ => bail!(
            "what was paid for paper ({text}) says how much it was only with the price of a ream; give --ream-price"
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ens_places_and_paper_are_read() {
        assert_eq!(typed_ens("36x44x16").unwrap(), Spread::exactly(25_344.0));
        assert_eq!(typed_ens("20000..30000").unwrap(), Spread::between(20_000.0, 30_000.0));
        assert!(typed_ens("36x44").unwrap_err().to_string().contains("36x44x16"));
        assert!(typed_ens("36x0x16").unwrap_err().to_string().contains("\"0\" is no number of ens"));
        let merrin = place("Merrin=800@2..3").unwrap();
        assert_eq!(
            (merrin.name.as_str(), merrin.copies, merrin.days),
            ("Merrin", 800, Spread::between(2.0, 3.0))
        );
        for wrong in ["Merrin", "Merrin=8", "Merrin=x@2", "=8@2", "Merrin=8@x"] {
            assert!(place(wrong).is_err(), "{wrong}");
        }
        let ten = Pence::parse("10s").ok();
        assert_eq!(known_paper(Some("18..22 reams"), None).unwrap(), Some(Spread::between(18.0, 22.0)));
        assert_eq!(known_paper(Some("£10"), ten).unwrap(), Some(Spread::exactly(20.0)));
        assert!(known_paper(Some("£10"), None).unwrap_err().to_string().contains("--ream-price"));
        assert!(known_paper(Some("much"), ten).unwrap_err().to_string().contains("no paper"));
    }
}
