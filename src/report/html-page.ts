import { escaped } from '#draw/svg.ts';
import type {
	PrintedBlock,
	PrintedCaution,
	PrintedDocument,
	PrintedDrawing,
	PrintedRow,
	PrintedStep,
	PrintedTable,
} from './printed-document.ts';

/** Words as CSS holds them: what could end the string, or the element of the style, by its number. */
const quoted = (words = ''): string =>
	`"${words.replaceAll(/[\p{Cc}<"\\]/gu, (sign) => `\\${sign.charCodeAt(0).toString(16)} `)}"`;

/** Tables of more lines, or of more columns, are set smaller. */
const longFrom = 12;
const wideFrom = 7;

/** Black on white, for paper first; at a screen the page keeps a column's width. */
const style = ({ footer, paper, pages }: PrintedDocument) => `
@page { size: ${paper}; margin: 14mm 15mm 16mm 25mm;
  @bottom-left { content: ${quoted(footer)}; font: 9pt 'Source Sans 3', sans-serif; }
  @bottom-right { content: ${quoted(pages[0])} counter(page) ${quoted(pages[1])} counter(pages) ${quoted(pages[2])}; font: 9pt 'Source Sans 3', sans-serif; } }
body { font: 9.4pt/1.2 'Source Sans 3', 'Segoe UI', 'Helvetica Neue', Arial, sans-serif; font-size-adjust: 0.486; color: #000; background: #fff; max-width: 176mm; margin: 0 auto; }
h1, h2, h3, .subtitle { font-family: 'Source Serif 4', Georgia, serif; font-weight: 600; break-after: avoid; }
header { display: flex; justify-content: space-between; align-items: baseline; gap: 8mm; border-top: 2pt solid; border-bottom: 1pt solid; margin-bottom: 3mm; }
h1 { font-size: 20pt; margin: 1.5mm 0; } h2 { font-size: 12.5pt; margin: 2.6mm 0 1.2mm; } h3 { font-size: 11.5pt; margin: 1.5mm 0; } .subtitle { font-size: 13pt; }
p { margin: 0 0 0.8mm; }
dl { display: grid; grid-template-columns: 32mm 1fr; gap: 0.3mm 3mm; margin: 0; } .step dl { grid-template-columns: 22mm 1fr; margin: 2mm 0; }
dt, .remark { color: #444; } dd { margin: 0; }
.caution { border-left: 1pt solid; padding: 0.2mm 2mm; margin: 0.8mm 0; break-inside: avoid; } .danger { border-left-width: 3pt; }
.drawing svg { display: block; width: 100%; height: auto; } figure { margin: 1mm auto; }
table { border-collapse: collapse; width: 100%; margin: 1mm 0; } th { text-align: left; border-bottom: 1pt solid; } td { border-bottom: 0.5pt solid #777; } td:empty { height: 5mm; } th, td { padding: 0.3mm 2mm 0.3mm 0; vertical-align: top; } .long { font-size: 8.2pt; line-height: 1.1; } .long th, .long td { padding: 0.2mm 1.2mm 0.2mm 0; } tr { break-inside: avoid; }
.step { border-top: 1pt solid; margin-top: 3mm; break-inside: avoid; } .beside { display: flex; flex-wrap: wrap; gap: 6mm; } .beside > div { flex: 1 1 80mm; }
.pictures { display: grid; grid-template-columns: repeat(var(--across), 1fr); gap: 2mm 4mm; } .pictures > div { break-inside: avoid; } .pictures figure { max-width: 100%; }
.page { break-after: page; }
.box { display: inline-block; width: 3.2mm; height: 3.2mm; border: 1pt solid; margin-right: 1.5mm; }
.blank { display: flex; align-items: end; gap: 2mm; margin: 1.5mm 0; } .blank span { flex: 1; border-bottom: 0.5pt solid #444; }
@media screen { body { font-size: 13pt; line-height: 1.35; padding: 4mm; } .long { font-size: 11.5pt; } }
`;

const cautions = (list: readonly PrintedCaution[]): string =>
	list
		.map(
			({ weight, sign, words }) =>
				`<p class="caution ${weight}"><strong>${escaped(sign)}.</strong> ${escaped(words)}</p>`,
		)
		.join('');
const rows = (list: readonly PrintedRow[]): string =>
	list.length === 0
		? ''
		: `<dl>${list.map(({ name, words }) => `<dt>${escaped(name)}</dt><dd>${escaped(words)}</dd>`).join('')}</dl>`;
const drawing = ({ svg, widthMm }: PrintedDrawing): string =>
	`<figure class="drawing" style="width: ${widthMm}mm">${svg}</figure>`;
const cells = (line: readonly string[], tag: 'td' | 'th'): string =>
	`<tr>${line.map((cell) => `<${tag}>${escaped(cell)}</${tag}>`).join('')}</tr>`;
const table = ({ heads, lines }: PrintedTable): string =>
	`<table${lines.length > longFrom || heads.length > wideFrom ? ' class="long"' : ''}><thead>${cells(heads, 'th')}</thead><tbody>${lines.map((line) => cells(line, 'td')).join('')}</tbody></table>`;
const paragraphs = (list: readonly string[], kind: string): string =>
	list.map((words) => `<p class="${kind}">${escaped(words)}</p>`).join('');

function step(it: PrintedStep): string {
	return [
		`<section class="step"><h3><span class="box"></span>${it.number}. ${escaped(it.title)}</h3><div class="beside"><div>`,
		paragraphs(it.instructions, 'instruction'),
		rows(it.rows),
		'</div>',
		it.drawing ? drawing(it.drawing) : '',
		'</div>',
		paragraphs(it.remarks, 'remark'),
		cautions(it.cautions),
		...it.blanks.map((words) => `<p class="blank">${escaped(words)} <span></span></p>`),
		it.pencil ? table(it.pencil) : '',
		'</section>',
	].join('');
}

function block(it: PrintedBlock): string {
	switch (it.kind) {
		case 'heading':
			return `<h2>${escaped(it.words)}</h2>`;
		case 'paragraph':
			return `<p>${escaped(it.words)}</p>`;
		case 'page':
			return '<div class="page"></div>';
		case 'rows':
			return rows(it.rows);
		case 'cautions':
			return cautions(it.cautions);
		case 'drawing':
			return drawing(it.drawing);
		case 'pictures':
			return `<div class="pictures" style="--across: ${it.across}">${it.pictures.map((picture) => `<div>${drawing(picture)}<p class="remark">${escaped(picture.words)}</p></div>`).join('')}</div>`;
		case 'table':
			return table(it);
		case 'step':
			return step(it);
	}
}

/** A document as one file for the browser, with its drawings in it; it prints on its paper with page numbers at the foot. */
export function htmlPage(document: PrintedDocument): string {
	return [
		`<!doctype html><html lang="${document.language}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${escaped(`${document.title}, ${document.subtitle}`)}</title>`,
		`<style>${style(document)}</style></head><body>`,
		`<header><h1>${escaped(document.title)}</h1><p class="subtitle">${escaped(document.subtitle)}</p></header><main>`,
		...document.blocks.map(block),
		'</main></body></html>\n',
	].join('');
}
