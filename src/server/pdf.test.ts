import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { usualOptions } from '#advice/sheet-options.ts';
import type { SheetOptions } from '#advice/sheet-step.ts';
import { languageOf } from '#record/language.ts';
import type { SetCard } from '#record/set-card.ts';
import type { Paper, PrintedDocument } from '#report/printed-document.ts';
import { sheetDocument } from '#report/sheet-document.ts';
import { exampleCard, factsOf, sheetOf } from '../../test/example-set.ts';
import { scratchFolder } from '../../test/journeys/open-page.ts';
import { pdfOf } from './pdf.ts';

// What stands on the paper is read back by poppler's own readers of PDF, which this project did not make.

function sheetPaper(
	change: Partial<SetCard> = {},
	paper: Paper = 'A4',
	options: SheetOptions = usualOptions,
): PrintedDocument {
	const facts = factsOf({ ...exampleCard(), ...change });
	return sheetDocument({
		facts,
		sheet: sheetOf(facts, options),
		language: languageOf(options.words, options.units),
		photos: [],
		paper,
		day: '1 March 2026',
	});
}

async function pdfFile(document: PrintedDocument): Promise<string> {
	const pdf = await pdfOf(document);
	if (!pdf.ok) throw new Error(pdf.words);
	const path = join(scratchFolder(), 'sheet.pdf');
	writeFileSync(path, pdf.value);
	return path;
}

const read = (program: string, ...args: string[]) => execFileSync(program, args, { encoding: 'utf8' });
/** All words of the paper in the order they were set, in one line: the typesetter breaks lines where it likes. */
const wordsOn = (path: string) => read('pdftotext', '-raw', path, '-').replace(/\s+/g, ' ');
const plain = (words: string) => words.replace(/\s+/g, ' ').trim();

test('every word of the sheet stands on the paper, in the drawings too', async () => {
	const document = sheetPaper();
	const words = wordsOn(await pdfFile(document));
	for (const block of document.blocks) {
		if (block.kind !== 'step') continue;
		for (const said of [block.title, ...block.instructions, ...block.blanks, ...block.remarks])
			expect(words).toContain(plain(said));
		for (const caution of block.cautions) expect(words).toContain(plain(caution.words));
		for (const { name } of block.rows) expect(words).toContain(name);
	}
	expect(words).toContain('isolation transformer, for this set alone');
	expect(words).toContain('455 kc, 400 c, 30 %');
	expect(words).toContain('page 1 of');
});

test('a sheet of one band is tagged, has its typefaces in it, its drawings as lines and two to five pages', async () => {
	const path = await pdfFile(sheetPaper());
	const facts = read('pdfinfo', path);
	expect(facts).toMatch(/Tagged:\s+yes/);
	expect(Number(/Pages:\s+(\d+)/.exec(facts)?.[1])).toBeGreaterThanOrEqual(2);
	expect(Number(/Pages:\s+(\d+)/.exec(facts)?.[1])).toBeLessThanOrEqual(5);
	const faces = read('pdffonts', path).trim().split('\n').slice(2);
	expect(faces.length).toBeGreaterThanOrEqual(3);
	for (const face of faces) expect(face).toMatch(/yes yes yes\s+\d+\s+0$/);
	expect(read('pdfimages', '-list', path).trim().split('\n')).toHaveLength(2);
});

test('letters of the hook-up drawing are nine points high or more on paper', async () => {
	const layout = read('pdftotext', '-bbox-layout', await pdfFile(sheetPaper()), '-');
	const words = [
		...layout.matchAll(/yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">(mmf|terminal|isolation|generator)</g),
	];
	expect(words.length).toBeGreaterThan(8);
	// The height that poppler gives is that of the line, 1.3 to 1.5 of the type's size in this typeface.
	for (const [, top, bottom] of words) expect(Number(bottom) - Number(top)).toBeGreaterThan(9 * 1.2);
});

test('A4 and Letter are 210 by 297 mm and 8.5 by 11 inches', async () => {
	expect(read('pdfinfo', await pdfFile(sheetPaper({}, 'A4')))).toMatch(/595\.27\d x 841\.8\d+ pts/);
	expect(read('pdfinfo', await pdfFile(sheetPaper({}, 'Letter')))).toMatch(/612 x 792 pts/);
});

test('what a card says is never taken for an instruction to the typesetter', async () => {
	const hostile = '#panic("x") $a_1$ *b* <c> @d \\u{41} [e] "f" // g';
	const path = await pdfFile(sheetPaper({ maker: hostile, model: '#read("/etc/passwd")', notes: hostile.repeat(20) }));
	expect(wordsOn(path)).toContain(plain(hostile));
	expect(wordsOn(path)).toContain('#read("/etc/passwd")');
});

test('letters that the typefaces lack do not keep the rest from being printed', async () => {
	for (const maker of ['Телефункен', '日本無線', 'bell \u0007', '📻', 'Ωµ±']) {
		const path = await pdfFile(sheetPaper({ maker }));
		expect(wordsOn(path)).toContain('TM-517');
		expect(read('pdfinfo', path)).toMatch(/Tagged:\s+yes/);
	}
});

test('a British sheet is British in its drawings and tables too', async () => {
	const words = wordsOn(await pdfFile(sheetPaper({}, 'A4', { ...usualOptions, words: 'UK' })));
	for (const american of ['antenna', 'ground lead', 'tube', 'B-plus', 'pointer']) expect(words).not.toContain(american);
	expect(words).not.toMatch(/\d kc(?!\/s)/);
	for (const british of ['earth lead', 'aerial high end', 'HT on the screw', '400 c/s, 30 %'])
		expect(words).toContain(british);
});

test('a sheet in kilohertz and metres has no kilocycles, and metres at places of the dial alone', async () => {
	const words = wordsOn(await pdfFile(sheetPaper({}, 'A4', { ...usualOptions, units: 'm' })));
	expect(words).not.toMatch(/\d (?:kc|Mc|c)\b/);
	// 299,792.458 m kHz: 1,400 kHz is 214 m, 600 kHz 500 m.
	expect(words).toContain('pointer on 1,400 kHz (214 m)');
	expect(words).toContain('600 kHz (500 m)');
	expect(words).toContain('IF transformers to 455 kHz');
	expect(words).not.toContain('455 kHz (');
	expect(words).toContain('400 Hz, 30 %');
});
