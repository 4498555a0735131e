//! Writes an invented plate in every format, to be looked at and to be read back by other programs.
//!
//! `cargo run -p drawing --example plate -- FOLDER` leaves `plate.dxf`, `plate.svg`,
//! `plate-a4.pdf` and `plate-letter.pdf` there. `.ci/drawings` knows where the holes must be.

use std::error::Error;
use std::path::PathBuf;

use drawing::figure::{Anchor, Figure, Pen, Point, Shape, Text};
use drawing::lettering::Lettering;
use drawing::look::Colour;
use drawing::pdf::{self, Meta};
use drawing::template::{self, Paper};
use drawing::{dxf, svg};

/// Number of the hole, centre from the lower left corner of the plate with y up, diameter, mm.
const HOLES: [(u32, Point, f64); 7] = [
    (1, [15.0, 15.0], 4.8),
    (2, [40.125, 15.0], 4.8),
    (3, [65.25, 15.0], 4.8),
    (4, [15.0, 215.5], 4.8),
    (5, [333.333, 201.75], 6.5),
    (6, [370.0, 60.0], 40.0),
    (7, [409.9, 219.05], 3.3),
];
const SIZE: [f64; 2] = [420.0, 230.0];

fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(std::env::args().nth(1).ok_or("usage: plate FOLDER")?);
    std::fs::create_dir_all(&folder)?;
    let plate = plate();
    std::fs::write(folder.join("plate.dxf"), dxf::dxf(&plate)?)?;
    std::fs::write(folder.join("plate.svg"), svg::alone(&plate)?)?;
    let meta = Meta { title: plate.title.clone(), ..Meta::default() };
    for (paper, name) in [(Paper::A4, "plate-a4.pdf"), (Paper::Letter, "plate-letter.pdf")] {
        let pages = template::tiled(&plate, paper, &plate.title)?;
        std::fs::write(folder.join(name), pdf::pdf(&pages, &meta)?)?;
    }
    Ok(())
}

fn plate() -> Figure {
    let [width, height] = SIZE;
    let up = |[x, y]: Point| [x, height - y];
    let mut plate = Figure {
        name: "plate".into(),
        title: "Plate with seven holes, invented".into(),
        desc: "A plate of 420 by 230 mm with a sloping edge, a fold and seven holes.".into(),
        size_mm: SIZE,
        marks: Vec::new(),
    };
    let ring = [[2.0, 2.0], [width - 2.0, 2.0], [width - 2.0, height - 2.0], [2.0, height - 10.0]].map(up);
    plate.add("cut", Shape::Area { rings: vec![ring.to_vec()], fill: None, pen: Some(Pen::Cut) });
    plate.line("folds", Pen::Fold, up([2.0, 110.0]), up([width - 2.0, 110.0])).name = Some("fold".into());
    for (number, centre, diameter) in HOLES {
        let centre = up(centre);
        let circle = Shape::Circle { centre, radius: diameter / 2.0, fill: None, pen: Some(Pen::Edge) };
        plate.add("holes", circle).name = Some(format!("hole {number}"));
        text(&mut plate, [centre[0], centre[1] + diameter / 2.0 + 5.0], 0.0, format!("{number}"));
    }
    text(&mut plate, up([200.0, 150.0]), 0.0, "Ø 4.8 H11, t = 2 mm, ρ = 2.7 g/cm³".into());
    text(&mut plate, up([250.0, 60.0]), 90.0, "rolling direction →".into());
    plate
}

fn text(plate: &mut Figure, at: Point, turn_deg: f64, words: String) {
    let (anchor, lettering, colour) = (Anchor::Middle, Lettering::Text, Colour::Ink);
    plate.add("text", Shape::Text(Text { at, anchor, turn_deg, lettering, colour, words }));
}
