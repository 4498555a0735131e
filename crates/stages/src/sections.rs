//! Sections of the job: built for the mechanics, and their properties, which are always given.

use assessment::{Known, Lack, names};
use job::tables::{Section, Tables};
use job::{Job, Needed};
use mechanics::section::{self as mechanical, Form, Isotropic, Wall, shapes};

use crate::{Results, taken};

/// Puts the properties of every section of the job.
pub(crate) fn run(job: &Job, results: &mut Results) {
    for (name, section) in job.tables.sections.iter() {
        taken::section(name, section, results);
        // Of one material the properties do not depend on its stiffness. The shear centre of a closed, unsymmetric
        // section moves a little with Poisson's ratio; without a material the textbook's zero is taken.
        let any = Isotropic { youngs_modulus_mpa: 1.0, poissons_ratio: 0.0 };
        let built = build(section, any, &job.tables);
        let properties =
            built.as_ref().map(|section| without_noise(section.properties())).map_err(Lack::clone);
        let mut put = |name_of, value: fn(&mechanical::Properties) -> f64| {
            results.quantities.put(name_of, &[name], properties.as_ref().map(value).map_err(Lack::clone));
        };
        put(&names::SECTION_AREA, |it| it.area_mm2);
        put(&names::SECTION_I_Y, |it| it.i_y_mm4);
        put(&names::SECTION_I_Z, |it| it.i_z_mm4);
        put(&names::SECTION_I_YZ, |it| it.i_yz_mm4);
        put(&names::SECTION_TORSION, |it| it.torsion.constant_mm4);
        put(&names::SECTION_CENTROID_Y, |it| it.centroid_mm[0]);
        put(&names::SECTION_CENTROID_Z, |it| it.centroid_mm[1]);
        put(&names::SECTION_SHEAR_CENTRE_Y, |it| it.shear_centre_mm[0]);
        put(&names::SECTION_SHEAR_CENTRE_Z, |it| it.shear_centre_mm[1]);
        put(&names::SECTION_SHEAR_AREA_Y, |it| it.shear_area_y_mm2);
        put(&names::SECTION_SHEAR_AREA_Z, |it| it.shear_area_z_mm2);
    }
}

/// Sets to zero what is zero but for rounding: positions against the size of the section, the product moment
/// against the second moments.
fn without_noise(properties: &mechanical::Properties) -> mechanical::Properties {
    const ROUNDING: f64 = 1e-12;
    let size = properties.i_1_mm4.max(properties.i_2_mm4);
    let length = (size / properties.area_mm2).sqrt();
    let clean = |value: f64, of: f64| if value.abs() <= ROUNDING * of { 0.0 } else { value };
    mechanical::Properties {
        centroid_mm: properties.centroid_mm.map(|it| clean(it, length)),
        shear_centre_mm: properties.shear_centre_mm.map(|it| clean(it, length)),
        i_yz_mm4: clean(properties.i_yz_mm4, size),
        ..*properties
    }
}

/// A failure of the mechanics as a reason for having no number.
pub(crate) fn failed(failure: &mechanics::Failure) -> Lack {
    let advice = match failure {
        mechanics::Failure::UnequalAdherends { .. } => "use the strip, which takes unequal plates",
        _ => "check sizes, moduli and loads for a slip of the decimal point",
    };
    Lack::Failed { what: failure.to_string(), advice: advice.to_owned() }
}

/// A section for the mechanics; `material` is that of the walls that name none, and the reference.
pub(crate) fn build(section: &Section, material: Isotropic, tables: &Tables) -> Known<mechanical::Section> {
    let built = if let Some(hollow) = section.hollow.get() {
        let (width, height, wall) =
            (hollow.width.need(), hollow.height.need(), hollow.wall.need()).need_all()?;
        let inner_radius_mm = hollow.inner_radius.get().map_or(0.0, |radius| radius.mm());
        let shape = shapes::HollowBox {
            width_mm: width.mm(),
            height_mm: height.mm(),
            wall_mm: wall.mm(),
            inner_radius_mm,
        };
        shape.section(material)
    } else if let Some(channel) = section.channel.get() {
        let (web, flange, wall) =
            (channel.web.need(), channel.flange.need(), channel.wall.need()).need_all()?;
        shapes::Channel { web_mm: web.mm(), flange_mm: flange.mm(), wall_mm: wall.mm() }.section(material)
    } else if let Some(hat) = section.hat.get() {
        let (top, height, flange, wall) =
            (hat.top.need(), hat.height.need(), hat.flange.need(), hat.wall.need()).need_all()?;
        let plate_mm = hat.plate.get().map_or(0.0, |plate| plate.mm());
        let shape = shapes::Hat {
            top_mm: top.mm(),
            height_mm: height.mm(),
            flange_mm: flange.mm(),
            wall_mm: wall.mm(),
            plate_mm,
        };
        shape.section(material)
    } else if let Some(tube) = section.tube.get() {
        let (diameter, wall) = (tube.outside_diameter.need(), tube.wall.need()).need_all()?;
        shapes::Tube { outside_diameter_mm: diameter.mm(), wall_mm: wall.mm() }.section(material)
    } else {
        return drawn(section, material, tables);
    };
    built.map_err(|failure| failed(&failure))
}

/// A section drawn by nodes and walls.
fn drawn(section: &Section, material: Isotropic, tables: &Tables) -> Known<mechanical::Section> {
    let walls = section.walls.need().map_err(|_| Lack::Missing {
        keys: vec![format!("{} as box, channel, hat, tube, or nodes with walls", section.key)],
    })?;
    let node = |name: &str| section.nodes.iter().position(|(known, _)| known == name);
    let nodes = section.nodes.iter().map(|(_, [y, z])| [y.mm(), z.mm()]).collect();
    let mut built = Vec::with_capacity(walls.len());
    for wall in walls {
        let (from, to, thickness) = (wall.from.need(), wall.to.need(), wall.thickness.need()).need_all()?;
        let material = match wall.material.get() {
            None => material,
            Some(_) => isotropic(tables.materials.referred(&wall.material)?)?,
        };
        // Reading refuses a wall that names no node, so both are found.
        let ends = node(from)
            .zip(node(to))
            .ok_or_else(|| Lack::Missing { keys: vec![section.nodes.key.clone()] })?;
        built.push(Wall {
            from: ends.0,
            to: ends.1,
            thickness_mm: thickness.mm(),
            material,
            form: Form::Flat,
        });
    }
    mechanical::Section::new(nodes, built, material).map_err(|failure| failed(&failure))
}

/// A material as the sections see it.
pub(crate) fn isotropic(material: &job::tables::Material) -> Result<Isotropic, job::Absent> {
    let (modulus, ratio) = (material.youngs_modulus.need(), material.poissons_ratio.need()).need_all()?;
    Ok(Isotropic { youngs_modulus_mpa: modulus.mpa(), poissons_ratio: *ratio })
}
