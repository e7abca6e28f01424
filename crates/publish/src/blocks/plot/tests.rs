//! What the drawing of years must hold.

use super::*;

fn year(median: f64, reach: f64) -> YearModel {
    YearModel {
        median,
        half: [median - reach / 3.0, median + reach / 3.0],
        nearly_all: [median - reach, median + reach],
        rests_on_window: false,
        beyond: 0.0,
    }
}

fn row(impression: usize, dated: Dated, told: Option<YearModel>) -> YearRow {
    YearRow {
        impression,
        name: format!("sheet-{impression}.jpg"),
        dated,
        by_order: told,
        with_rate: told.map(|t| year(t.median, 3.0)),
        bounds_words: String::new(),
        plain_words: None,
    }
}

fn dates() -> DatesModel {
    DatesModel {
        rows: vec![
            row(1, Dated::Exactly { year: 1600 }, None),
            row(2, Dated::Unknown, Some(year(1610.0, 8.0))),
            row(3, Dated::Exactly { year: 1620 }, None),
            row(4, Dated::Unknown, Some(year(1630.0, 12.0))),
        ],
        rate_words: String::new(),
        checks: Vec::new(),
        held_out: Vec::new(),
        warnings: Vec::new(),
        priors: Vec::new(),
    }
}

fn medians(plot: &Plot) -> Vec<f64> {
    plot.marks.iter().filter_map(|m| if let Mark::Dot { at, .. } = m { Some(at[0]) } else { None }).collect()
}

#[test]
fn years_lie_in_proportion_and_both_answers_are_drawn() {
    for breadth in [Breadth::Wide, Breadth::Narrow] {
        let plot = plot(&dates(), breadth).unwrap();
        let diamonds: Vec<f64> = plot
            .marks
            .iter()
            .filter_map(|m| if let Mark::Diamond { at, .. } = m { Some(at[0]) } else { None })
            .collect();
        let dots = medians(&plot);
        // Two answers for each of two.
        assert_eq!((dots.len(), diamonds.len()), (4, 2));
        let samples = plot.legend.iter().filter(|m| matches!(m, Mark::Dot { .. } | Mark::Diamond { .. }));
        assert_eq!(samples.count(), 3);
        let halfway = f64::midpoint(diamonds[0], diamonds[1]);
        assert!((dots[0] - halfway).abs() < 1e-9 && (dots[1] - halfway).abs() < 1e-9);
        assert!(((dots[2] - diamonds[1]) - (diamonds[1] - halfway)).abs() < 1e-9);
        // The years after 1620 are hatched, and nothing is drawn beyond the edges.
        let x = |m: &Mark| if let Mark::Hatch { corner, .. } = m { Some(corner[0]) } else { None };
        assert!(plot.marks.iter().filter_map(x).any(|x| (x - diamonds[1]).abs() < 1e-9));
        assert!(dots.iter().all(|&x| x > 0.0 && x < plot.size[0]));
    }
}

#[test]
fn without_any_year_there_is_no_drawing() {
    let mut none = dates();
    none.rows.iter_mut().for_each(|r| *r = row(r.impression, Dated::Unknown, None));
    assert!(plot(&none, Breadth::Wide).is_none() && date_plot_svg(&none, "x").is_none());
}

#[test]
fn the_svg_is_well_formed_and_names_stay_text() {
    let mut dates = dates();
    dates.rows[1].name = "<b>&\"".to_owned();
    let svg = date_plot_svg(&dates, "a < b").unwrap();
    assert!(svg.contains("<title id=\"title\">a &lt; b</title>") && svg.contains("&lt;b&gt;&amp;&quot;"));
    assert!(svg.contains("Impression 2, with the rate: 1610, with 95 percent between 1607 and 1613."));
    assert_eq!(svg.matches("<text").count(), svg.matches("</text>").count());
}

#[test]
fn the_pixels_hold_ink_where_the_marks_are() {
    let plot = plot(&dates(), Breadth::Wide).unwrap();
    let drawn = draw(&plot).unwrap();
    let Some(Mark::Diamond { at: [x, y], .. }) =
        plot.marks.iter().find(|m| matches!(m, Mark::Diamond { .. }))
    else {
        panic!("a known year is a diamond")
    };
    let dark = |x: f64, y: f64| drawn.at(((x + 24.0) * 2.0) as usize, ((y + 24.0) * 2.0) as usize)[0] < 90;
    assert!(dark(*x, *y) && !dark(*x, *y + 12.0));
}

#[test]
fn hatching_stays_in_its_box() {
    for [from, to] in hatching([10.0, 20.0], [30.0, 50.0]) {
        for [x, y] in [from, to] {
            assert!((10.0..=40.0).contains(&x) && (20.0..=70.0).contains(&y), "{x} {y}");
        }
        assert!(((from[0] + from[1]) - (to[0] + to[1])).abs() < 1e-9);
    }
}
