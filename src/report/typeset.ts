import type { PrintedDocument } from './printed-document.ts';

/**
 * The layout in the typesetter's language. It holds no words of any document: those come in as JSON and are set as plain text,
 * so that nothing in a card can be taken for an instruction to the typesetter.
 */
const layout = `
#let doc = json(bytes(sys.inputs.document))
#let faint = luma(30%)
#let rule = 0.5pt + luma(45%)
#set document(title: doc.title + ", " + doc.subtitle, date: none)
#set page(
  paper: if doc.paper == "A4" { "a4" } else { "us-letter" },
  margin: (left: 25mm, right: 15mm, top: 16mm, bottom: 18mm),
  footer: context [
    #set text(9pt, fill: faint)
    #doc.footer #h(1fr) #doc.pages.at(0)#counter(page).get().first()#doc.pages.at(1)#counter(page).final().first()#doc.pages.at(2)
  ],
)
#set text(font: ("Source Sans 3", "DejaVu Sans Mono"), size: 10pt, lang: doc.language.slice(0, 2), region: doc.language.slice(3), number-width: "tabular")
#set par(leading: 0.5em, spacing: 0.62em)
#show heading: set text(font: ("Source Serif 4", "DejaVu Sans Mono"), weight: 600)
#show heading.where(level: 1): set text(18pt)
#show heading.where(level: 2): set text(13pt)
#show heading.where(level: 3): set text(11.5pt)
#show heading: set block(above: 0.9em, below: 0.5em, sticky: true)

#let drawing(it) = image(bytes(it.svg), format: "svg", width: it.widthMm * 1mm, alt: it.words)
#let pictures(it) = grid(columns: (1fr,) * it.across, column-gutter: if it.across == 2 { 6mm } else { 4mm }, row-gutter: 4mm,
  ..it.pictures.map(it => block(breakable: false, width: 100%)[#align(center)[#drawing(it) #text(fill: faint, it.words)]]))
#let caution(it) = block(
  width: 100%, inset: (left: 6pt, y: 2.5pt), spacing: 3pt, breakable: false,
  stroke: (left: if it.weight == "danger" { 3pt } else { 1pt }),
)[#text(weight: 600)[#it.sign.] #it.words]
#let rows(list, first) = grid(
  columns: (first, 1fr), column-gutter: 8pt, row-gutter: 5.5pt,
  ..list.map(it => (text(fill: faint, it.name), [#it.words])).flatten(),
)
#let blank(words, widths: (auto, 1fr)) = grid(columns: widths, column-gutter: 6pt, inset: (top: 3pt), [#words],
  align(bottom, line(length: 100%, stroke: rule)))
#let box-to-tick = box(width: 9pt, height: 9pt, stroke: 0.9pt, baseline: 0.5pt)

// A column that is empty is made wide for the pencil, the last one widest.
#let table-of(it) = block(breakable: it.lines.len() > 12, {
  let is-small = it.lines.len() > 12 or it.heads.len() > 7
  set text(if is-small { 9pt } else { 10pt })
  table(
  columns: it.heads.enumerate().map(((place, _)) =>
    if it.lines.any(line => line.at(place) != "") { auto } else if place == it.heads.len() - 1 { 2fr } else { 1fr }),
  stroke: (x, y) => (bottom: if y == 0 { 0.9pt } else { 0.4pt + luma(55%) }),
  inset: (x: 4pt, y: if is-small { 2.2pt } else { 3pt }),
  table.header(..it.heads.map(head => text(weight: 600, head))),
  ..it.lines.flatten().map(cell => if cell == "" { [#h(0pt)#sym.zws] } else { [#cell] }),
)})

// What belongs together at the bench stays on one page: the words, the drawing and the cautions.
#let step(it) = block(width: 100%, above: 11pt, stroke: (top: 0.9pt), inset: (top: 6pt), {
  show heading: set block(above: 0pt, below: 6pt)
  block(breakable: false, {
    heading(level: 3)[#box-to-tick #h(3pt) #it.number. #it.title]
    let words = {
      for line in it.instructions { par[#line] }
      if it.rows.len() > 0 { block(above: 7pt, rows(it.rows, 21mm)) }
    }
    if it.drawing == none { words } else {
      grid(columns: (1fr, it.drawing.widthMm * 1mm), column-gutter: 6mm, words, drawing(it.drawing))
    }
    for line in it.remarks { par(text(fill: faint, line)) }
    for line in it.cautions { caution(line) }
    if it.pencil != none and it.pencil.lines.len() <= 2 { table-of(it.pencil) }
  })
  if it.pencil != none and it.pencil.lines.len() > 2 { table-of(it.pencil) }
  if it.blanks.len() > 4 { grid(columns: (1fr, 1fr), column-gutter: 8mm, row-gutter: 4pt, ..it.blanks.map(line => blank(line, widths: (1fr, 14mm)))) }
  else { for line in it.blanks { blank(line) } }
})

#block(width: 100%, stroke: (top: 2pt, bottom: 0.9pt), inset: (top: 7pt, bottom: 7pt), below: 9pt, {
  show heading: set block(above: 0pt, below: 0pt)
  grid(columns: (1fr, auto), column-gutter: 8mm, align: (left + bottom, right + bottom),
    heading(level: 1, doc.title), text(font: "Source Serif 4", weight: 600, 13pt, doc.subtitle))
})

// Room for so much is asked for without being taken: what follows goes to the next page where there is less.
#let room-for(height) = { block(height: height, above: 0pt, below: 0pt, breakable: false); v(-height) }
#let is-long(at) = at < doc.blocks.len() and doc.blocks.at(at).kind == "table" and doc.blocks.at(at).lines.len() > 12

#for (at, it) in doc.blocks.enumerate() {
  if it.kind == "heading" {
    if is-long(at + 1) { room-for(45mm) }
    heading(level: 2, it.words)
  }
  else if it.kind == "paragraph" { par[#it.words] }
  else if it.kind == "page" { pagebreak(weak: true) }
  else if it.kind == "rows" { rows(it.rows, 32mm) }
  else if it.kind == "cautions" { block(above: 9pt, below: 9pt, for line in it.cautions { caution(line) }) }
  else if it.kind == "drawing" { align(center, drawing(it.drawing)) }
  else if it.kind == "pictures" { pictures(it) }
  else if it.kind == "table" { table-of(it) }
  else { step(it) }
}
`;

/** Marks that turn the direction of all that follows them; letters of right-to-left writing turn by themselves. */
const directionMarks = /[\u202a-\u202e\u2066-\u2069]/g;

/** What the typesetter is given: its layout, and the document's words by name. */
export function typeset(document: PrintedDocument): {
	readonly layout: string;
	readonly inputs: Readonly<Record<string, string>>;
} {
	return { layout, inputs: { document: JSON.stringify(document).replace(directionMarks, '') } };
}
