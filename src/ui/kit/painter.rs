//! CPU painter: turns egui's triangles into pixels without a GPU, a driver or a display.

// Pixel arithmetic is on values that are clipped to the picture already; corners that are equal are copies.

use std::collections::HashMap;

use egui::epaint::{ClippedPrimitive, ImageData, Primitive, Vertex};
use egui::{Color32, ColorImage, Context, RawInput, Rect, TextureId, TexturesDelta, pos2, vec2};

use crate::{fonts, theme, tokens};

/// Seconds between two passes of [`picture`]: long enough for every animation to end.
const PASS_SECONDS: f64 = 0.25;
/// Vertices are snapped to 1/256 pixel: exact integer edges, so no seam is painted twice.
const SUB: i64 = 256;
/// Farther than this from the picture nothing is drawn; keeps the integer products in range.
const FAR: f64 = 1.0e6;

/// Draws a headless window: runs `run` for `passes` passes (4 settle everything), paints the last.
///
/// `size_points` is the window in points, `pixels_per_point` the zoom (1.0, 1.5, 2.0).
pub fn picture(
    size_points: [u32; 2],
    pixels_per_point: f32,
    dark: bool,
    passes: usize,
    mut run: impl FnMut(&mut egui::Ui),
) -> ColorImage {
    let ctx = Context::default();
    ctx.set_fonts(fonts::definitions());
    theme::install(&ctx);
    let theme = if dark { egui::Theme::Dark } else { egui::Theme::Light };
    ctx.set_theme(theme);

    let [width, height] = size_points.map(|side| side as f32);
    let mut painter = SoftPainter::default();
    let mut last = ColorImage::default();
    let passes = passes.max(1);
    for pass in 0..passes {
        let mut input = RawInput {
            screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), vec2(width, height))),
            time: Some(pass as f64 * PASS_SECONDS),
            max_texture_side: Some(4096),
            ..RawInput::default()
        };
        if let Some(viewport) = input.viewports.get_mut(&input.viewport_id) {
            viewport.native_pixels_per_point = Some(pixels_per_point);
        }
        let mut output = ctx.run_ui(input, &mut run);
        painter.update(&mut output.textures_delta);
        if pass + 1 == passes {
            let scale = output.pixels_per_point;
            let size = [width, height].map(|side| (side * pixels_per_point).round() as usize);
            let prims = ctx.tessellate(output.shapes, scale);
            last = painter.paint(size, scale, &prims, tokens::tokens(dark).page);
        }
    }
    last
}

struct Texture {
    size: [usize; 2],
    pixels: Vec<Color32>,
    linear: bool,
}

/// Holds the textures between frames and paints triangles into an image.
#[derive(Default)]
pub struct SoftPainter {
    textures: HashMap<TextureId, Texture>,
}

impl SoftPainter {
    /// Takes over new, changed and freed textures. Call it after every pass, also unpainted ones.
    pub fn update(&mut self, delta: &mut TexturesDelta) {
        #[expect(
            clippy::iter_over_hash_type,
            reason = "each texture is its own; their order does not matter"
        )]
        for (id, changes) in delta.set.drain() {
            for change in changes {
                let ImageData::Color(image) = &change.image;
                let Some([x, y]) = change.pos else {
                    let texture = Texture {
                        size: image.size,
                        pixels: image.pixels.clone(),
                        linear: change.options.magnification == egui::TextureFilter::Linear,
                    };
                    self.textures.insert(id, texture);
                    continue;
                };
                if let Some(texture) = self.textures.get_mut(&id) {
                    texture.patch(x, y, image);
                }
            }
        }
        #[expect(
            clippy::iter_over_hash_type,
            reason = "each texture is its own; their order does not matter"
        )]
        for id in delta.free.drain() {
            self.textures.remove(&id);
        }
    }

    /// Paints tessellated shapes over `clear`; `size` in pixels.
    pub fn paint(
        &self,
        size: [usize; 2],
        pixels_per_point: f32,
        prims: &[ClippedPrimitive],
        clear: Color32,
    ) -> ColorImage {
        let mut canvas = Canvas { width: size[0], pixels: vec![clear; size[0] * size[1]], clip: [0; 4] };
        for prim in prims {
            let Primitive::Mesh(mesh) = &prim.primitive else {
                continue;
            };
            let Some(texture) = self.textures.get(&mesh.texture_id) else {
                continue;
            };
            let pixel = |points: f32| (points * pixels_per_point).round() as i64;
            let clip = prim.clip_rect;
            canvas.clip = [
                pixel(clip.min.x).max(0),
                pixel(clip.min.y).max(0),
                pixel(clip.max.x).min(size[0] as i64),
                pixel(clip.max.y).min(size[1] as i64),
            ];
            let corners: Vec<Corner> =
                (mesh.vertices.iter()).map(|vertex| Corner::new(vertex, pixels_per_point)).collect();
            for index in mesh.indices.chunks_exact(3) {
                let corner = |k: usize| corners.get(index[k] as usize);
                if let (Some(a), Some(b), Some(c)) = (corner(0), corner(1), corner(2)) {
                    canvas.triangle(texture, a, b, c);
                }
            }
        }
        ColorImage::new(size, canvas.pixels)
    }
}

impl Texture {
    fn patch(&mut self, x: usize, y: usize, image: &ColorImage) {
        let [width, height] = image.size;
        for row in 0..height {
            let (to, from) = ((y + row) * self.size[0] + x, row * width);
            if let (Some(target), Some(source)) =
                (self.pixels.get_mut(to..to + width), image.pixels.get(from..from + width))
            {
                target.copy_from_slice(source);
            }
        }
    }

    /// The colour at `uv`, bilinear (texel centres at +0.5, edges clamped) or nearest.
    fn sample(&self, uv: [f32; 2]) -> [f32; 4] {
        let [w, h] = self.size;
        let (x, y) = (uv[0] * w as f32, uv[1] * h as f32);
        let texel = |column: f32, row: f32| {
            let column = (column.max(0.0) as usize).min(w - 1);
            let row = (row.max(0.0) as usize).min(h - 1);
            (self.pixels[row * w + column].to_array()).map(f32::from)
        };
        if !self.linear {
            return texel(x, y);
        }
        let (left, top) = ((x - 0.5).floor(), (y - 0.5).floor());
        let (across, down) = (x - 0.5 - left, y - 0.5 - top);
        let (a, b) = (texel(left, top), texel(left + 1.0, top));
        let (c, d) = (texel(left, top + 1.0), texel(left + 1.0, top + 1.0));
        std::array::from_fn(|k| {
            let upper = a[k] + (b[k] - a[k]) * across;
            let lower = c[k] + (d[k] - c[k]) * across;
            upper + (lower - upper) * down
        })
    }
}

/// A vertex made ready once per mesh: snapped position, colour as floats.
struct Corner {
    at: (i64, i64),
    uv: [f32; 2],
    color: [f32; 4],
    packed: Color32,
}

impl Corner {
    fn new(vertex: &Vertex, pixels_per_point: f32) -> Self {
        let snap = |points: f32| {
            let pixels = f64::from(points * pixels_per_point).clamp(-FAR, FAR);
            (pixels * SUB as f64).round() as i64
        };
        Self {
            at: (snap(vertex.pos.x), snap(vertex.pos.y)),
            uv: [vertex.uv.x, vertex.uv.y],
            color: vertex.color.to_array().map(f32::from),
            packed: vertex.color,
        }
    }
}

struct Canvas {
    width: usize,
    pixels: Vec<Color32>,
    /// Left, top, right, bottom in pixels, inside the picture.
    clip: [i64; 4],
}

fn cross(a: (i64, i64), b: (i64, i64), c: (i64, i64)) -> i64 {
    (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
}

/// One edge as a number per pixel of the row: inside where it is not negative.
struct Edge {
    from: (i64, i64),
    to: (i64, i64),
    /// -1 for edges that do not own the pixels lying exactly on them (the top-left rule).
    bias: i64,
    step: i64,
}

impl Edge {
    fn new(from: (i64, i64), to: (i64, i64)) -> Self {
        let owns = (from.1 == to.1 && to.0 > from.0) || to.1 < from.1;
        Self { from, to, bias: if owns { 0 } else { -1 }, step: -(to.1 - from.1) * SUB }
    }

    fn at(&self, x: i64, y: i64) -> i64 {
        let centre = (x * SUB + SUB / 2, y * SUB + SUB / 2);
        cross(self.from, self.to, centre)
    }

    /// Narrows the span `x0..x1` of row `y` to the pixels inside this edge.
    fn narrow(&self, y: i64, (x0, x1): (i64, i64)) -> (i64, i64) {
        let start = self.at(x0, y) + self.bias;
        match self.step.signum() {
            1 if start < 0 => (x0 + (-start + self.step - 1) / self.step, x1),
            -1 if start < 0 => (x0, x0),
            -1 => (x0, x1.min(x0 + start / -self.step + 1)),
            0 if start < 0 => (x0, x0),
            _ => (x0, x1),
        }
    }
}

impl Canvas {
    fn triangle(&mut self, texture: &Texture, a: &Corner, b: &Corner, c: &Corner) {
        let area = cross(a.at, b.at, c.at);
        let (b, c, area) = match area.signum() {
            0 => return,
            1 => (b, c, area),
            _ => (c, b, -area),
        };
        let [left, top, right, bottom] = self.clip;
        let xs = [a.at.0, b.at.0, c.at.0].map(|x| x.div_euclid(SUB));
        let ys = [a.at.1, b.at.1, c.at.1].map(|y| y.div_euclid(SUB));
        let span = (xs[0].min(xs[1]).min(xs[2]).max(left), (xs[0].max(xs[1]).max(xs[2]) + 1).min(right));
        let rows = ys[0].min(ys[1]).min(ys[2]).max(top)..(ys[0].max(ys[1]).max(ys[2]) + 1).min(bottom);
        if span.0 >= span.1 {
            return;
        }
        let edges = [Edge::new(b.at, c.at), Edge::new(c.at, a.at), Edge::new(a.at, b.at)];
        let flat = a.packed == b.packed && b.packed == c.packed && a.uv == b.uv && b.uv == c.uv;
        let flat_color = flat.then(|| multiply(texture.sample(a.uv), a.color));
        for y in rows {
            let (x0, x1) = (edges.iter()).fold(span, |span, edge| edge.narrow(y, span));
            if x0 >= x1 {
                continue;
            }
            let row = y as usize * self.width;
            let target = &mut self.pixels[row + x0 as usize..row + x1 as usize];
            match flat_color {
                Some(color) => fill(target, color),
                None => shade(target, texture, [a, b, c], &edges, (x0, y), area),
            }
        }
    }
}

/// Paints a run of pixels of one colour.
fn fill(target: &mut [Color32], color: [f32; 4]) {
    if color[3] >= 254.5 {
        let [r, g, b, _] = color.map(|part| (part + 0.5) as u8);
        target.fill(Color32::from_rgb(r, g, b));
    } else if color.iter().any(|&part| part > 0.0) {
        target.iter_mut().for_each(|pixel| *pixel = over(color, *pixel));
    }
}

/// Paints a run of pixels with colour and texture interpolated between three corners.
fn shade(
    target: &mut [Color32],
    texture: &Texture,
    corners: [&Corner; 3],
    edges: &[Edge; 3],
    (x, y): (i64, i64),
    area: i64,
) {
    let scale = 1.0 / area as f64;
    let mut weight = [0, 1, 2].map(|k: usize| edges[k].at(x, y));
    for pixel in target {
        let w = weight.map(|value| (value as f64 * scale) as f32);
        let mix = |k: fn(&Corner, usize) -> f32, i: usize| {
            w[0] * k(corners[0], i) + w[1] * k(corners[1], i) + w[2] * k(corners[2], i)
        };
        let uv = [0, 1].map(|i| mix(|corner, i| corner.uv[i], i));
        let color = [0, 1, 2, 3].map(|i| mix(|corner, i| corner.color[i], i));
        let source = multiply(texture.sample(uv), color);
        if source.iter().any(|&part| part > 0.0) {
            *pixel = over(source, *pixel);
        }
        for k in 0..3 {
            weight[k] += edges[k].step;
        }
    }
}

fn multiply(a: [f32; 4], b: [f32; 4]) -> [f32; 4] {
    std::array::from_fn(|k| a[k] * b[k] / 255.0)
}

/// Premultiplied source over destination, in gamma space as egui's own painters do.
fn over(source: [f32; 4], below: Color32) -> Color32 {
    let keep = 1.0 - source[3] / 255.0;
    let below = below.to_array();
    let part = |k: usize| (source[k] + f32::from(below[k]) * keep + 0.5).min(255.0) as u8;
    Color32::from_rgba_premultiplied(part(0), part(1), part(2), part(3))
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::epaint::Mesh;

    const INK: Color32 = Color32::from_rgb(10, 200, 30);

    fn painter() -> SoftPainter {
        let texture = Texture { size: [1, 1], pixels: vec![Color32::WHITE], linear: true };
        SoftPainter { textures: HashMap::from([(TextureId::default(), texture)]) }
    }

    fn rectangle(rect: Rect, clip: Rect, color: Color32) -> ClippedPrimitive {
        let mut mesh = Mesh::default();
        mesh.add_colored_rect(rect, color);
        ClippedPrimitive { clip_rect: clip, primitive: Primitive::Mesh(mesh) }
    }

    fn rect(x0: f32, y0: f32, x1: f32, y1: f32) -> Rect {
        Rect::from_min_max(pos2(x0, y0), pos2(x1, y1))
    }

    fn painted(prim: ClippedPrimitive, scale: f32) -> Vec<(usize, usize)> {
        let image = painter().paint([16, 16], scale, &[prim], Color32::BLACK);
        (0..256).map(|i| (i % 16, i / 16)).filter(|&at| image[at] != Color32::BLACK).collect()
    }

    #[test]
    fn a_rectangle_covers_exactly_its_pixels() {
        let prim = rectangle(rect(2.0, 3.0, 6.0, 5.0), Rect::EVERYTHING, INK);
        let expected: Vec<_> = (3..5).flat_map(|y| (2..6).map(move |x| (x, y))).collect();
        assert_eq!(painted(prim.clone(), 1.0), expected);
        assert_eq!(painted(prim, 2.0).len(), 8 * 4);
    }

    #[test]
    fn clip_cuts_and_outside_is_left_alone() {
        let prim = rectangle(rect(-9.0, -9.0, 99.0, 99.0), rect(4.0, 4.0, 7.0, 6.0), INK);
        let at = painted(prim, 1.0);
        assert_eq!(at.len(), 6);
        assert!(at.iter().all(|&(x, y)| (4..7).contains(&x) && (4..6).contains(&y)));
    }

    #[test]
    fn seams_are_painted_once() {
        let half = Color32::from_rgba_premultiplied(100, 100, 100, 128);
        let prim = rectangle(rect(0.0, 0.0, 16.0, 16.0), Rect::EVERYTHING, half);
        let image = painter().paint([16, 16], 1.0, &[prim], Color32::BLACK);
        let first = image.pixels[0];
        assert!(image.pixels.iter().all(|&pixel| pixel == first));
    }

    #[test]
    fn a_picture_of_text_is_not_empty_and_repeats() {
        let draw = |dark| {
            picture([120, 40], 1.5, dark, 4, |ui| {
                ui.label("pH 4.1 → bright");
            })
        };
        for dark in [false, true] {
            let image = draw(dark);
            assert_eq!(image.size, [180, 60]);
            let page = tokens::tokens(dark).page;
            assert!(image.pixels.iter().filter(|&&p| p != page).count() > 100);
            assert_eq!(image.pixels, draw(dark).pixels);
        }
    }
}
