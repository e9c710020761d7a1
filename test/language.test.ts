import { beforeAll, expect, test } from 'vitest';
import { makeSheet } from '../src/advice/sheet.ts';
import { usualOptions } from '../src/advice/sheet-options.ts';
import { spoken } from '../src/record/language.ts';
import type { RunEntry } from '../src/record/run.ts';
import { setFacts } from '../src/record/set-facts.ts';
import { benchCard } from '../src/report/bench-card.ts';
import { htmlPage } from '../src/report/html-page.ts';
import type { PrintedDocument } from '../src/report/printed-document.ts';
import { reportDocument } from '../src/report/report-document.ts';
import { sheetDocument } from '../src/report/sheet-document.ts';
import { reportPaper } from '../src/server/run-report.ts';
import { sentences } from '../tools/documentation/sentences.ts';
import { provedRun } from './proved-run.ts';

/** A language that nobody speaks: every letter of the program's sentences is the same one of another alphabet; places stay. */
const asked = new Set<string>();
const invented = spoken(
	{
		tag: 'art',
		days: 'en-GB',
		sentence(english) {
			asked.add(english);
			return english.replace(/\{\d+\}|[A-Za-z]/g, (part) => (part.startsWith('{') ? part : '\u0436'));
		},
	},
	'kHz',
);

let entries: RunEntry[] = [];
beforeAll(async () => {
	entries = await provedRun();
});

function paper() {
	const made = reportPaper('proved-run', entries, { paper: 'A4', language: invented, shop: null });
	if (!made.ok) throw new Error(made.words);
	return made.value;
}

/** What a reader sees of a document, its drawings among it: everything but markup. */
const seen = (document: PrintedDocument): string =>
	htmlPage(document)
		.replace(/<style>.*?<\/style>/gs, '')
		.replace(/<[^>]*>/g, ' ');

/** Latin words of a document that no person typed and that are neither unit nor sign. */
function untold(document: PrintedDocument): readonly string[] {
	const { maker, model, notes, bands, tubes, adjusters, voiceCoil, gang } = paper().facts.card;
	const typed = JSON.stringify([
		[maker, model, notes, voiceCoil, gang?.capacitance, tubes],
		[bands, adjusters].flatMap((named) => (named ?? []).map(({ name }) => name)),
		entries.flatMap(({ what }) => {
			if (what.kind === 'test reading') return [what.words];
			if (what.kind === 'test gear') return [what.generator, what.meter];
			return what.kind === 'note' ? [what.text] : [];
		}),
	]);
	const units = ['uV', 'mV', 'dB', 'kHz', 'mmf', 'mfd', 'ohms', 'V', 'M', 'k', 'x'];
	return (seen(document).match(/[A-Za-z]+/g) ?? []).filter((word) => !units.includes(word) && !typed.includes(word));
}

const day = (): readonly string[] => invented.day(entries[0]?.atMs ?? 0).match(/[A-Za-z]+/g) ?? [];

test('another language reaches every word of report and bench card; what a person typed stays', () => {
	for (const document of [reportDocument(paper()), benchCard(paper())]) {
		expect(untold(document).filter((word) => !day().includes(word))).toEqual([]);
		expect(seen(document)).toContain('Thistlemoor');
		expect(seen(document)).toContain('\u0436');
	}
	expect(seen(reportDocument(paper()))).toContain('R7 had drifted to 3.1 M');
});

test('another language reaches every word of the sheet', () => {
	const facts = setFacts({ ...paper().facts.card, ifCurve: 'overcoupled', supply: 'unknown' });
	const sheet = facts.ok ? makeSheet(facts.value, { ...usualOptions, attenuator: 'coarse' }, invented) : facts;
	if (!facts.ok || !sheet.ok) throw new Error('no sheet');
	const document = sheetDocument({
		facts: facts.value,
		sheet: sheet.value,
		language: invented,
		photos: [],
		paper: 'A4',
		day: '1',
	});
	expect(untold(document)).toEqual([]);
});

test('every sentence that is printed stands in the list of sentences', () => {
	reportDocument(paper());
	const listed = new Set(sentences());
	const frequency = /^[\d,.]+ (?:c|kc|Mc)$/;
	expect([...asked].filter((sentence) => !listed.has(sentence) && !frequency.test(sentence))).toEqual([]);
});
