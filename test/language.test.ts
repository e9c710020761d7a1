import { beforeAll, expect, test } from 'vitest';
import { gateFor } from '../src/advice/gates.ts';
import { usualOptions } from '../src/advice/sheet-options.ts';
import { usualGear } from '../src/advice/tests/gear.ts';
import { standardTests } from '../src/advice/tests/procedures.ts';
import { judgeTriage, triageQuestions } from '../src/advice/triage.ts';
import { spoken } from '../src/record/language.ts';
import type { RunEntry } from '../src/record/run.ts';
import { benchCard } from '../src/report/bench-card.ts';
import { htmlPage } from '../src/report/html-page.ts';
import type { PrintedDocument } from '../src/report/printed-document.ts';
import { reportDocument } from '../src/report/report-document.ts';
import { sheetDocument } from '../src/report/sheet-document.ts';
import { reportPaper } from '../src/server/run-report.ts';
import { sentences } from '../tools/documentation/sentences.ts';
import { factsOf, sheetOf } from './example-set.ts';
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
		const files = (paper().curves?.files ?? []).flatMap(({ name }) => name.match(/[A-Za-z]+/g) ?? []);
		const own = [...day(), ...files];
		expect(untold(document).filter((word) => !own.includes(word))).toEqual([]);
		expect(seen(document)).toContain('Thistlemoor');
		expect(seen(document)).toContain('\u0436');
	}
	expect(seen(reportDocument(paper()))).toContain('R7 had drifted to 3.1 M');
});

test('another language reaches every word of the sheet', () => {
	const facts = factsOf({ ...paper().facts.card, ifCurve: 'overcoupled', supply: 'unknown' });
	const document = sheetDocument({
		facts,
		sheet: sheetOf(facts, { ...usualOptions, attenuator: 'coarse' }, invented),
		language: invented,
		photos: [],
		paper: 'A4',
		day: '1',
	});
	expect(untold(document)).toEqual([]);
});

test('another language reaches every word of gates, triage and the tests as procedures', () => {
	const { facts } = paper();
	const gates = (['first hook-up', 'power-up', 'resume', 'new contact'] as const).map((moment) =>
		gateFor(moment, facts, 'antenna through dummy', invented),
	);
	const questions = triageQuestions(facts, invented);
	const answered = (answer: string) =>
		judgeTriage(
			facts,
			Object.fromEntries(questions.map(({ id }) => [id, id === 'b-plus' ? '50 V' : answer])),
			invented,
		);
	const procedures = standardTests(facts, usualGear(facts, 'before'), [], invented);
	const words = [
		...gates.flatMap(({ title, cautions, confirmations, measurements }) => [
			title,
			...[...cautions, ...confirmations].map((one) => one.words),
			...measurements.flatMap((one) => [one.words, one.otherwise]),
		]),
		...[answered('yes'), answered('no'), answered('')].flatMap((verdict) => [
			verdict.words,
			...verdict.reasons,
			...verdict.wouldChange,
		]),
		...procedures.flatMap(({ title, measures, source, steps, budget, asks, hookUp }) => [
			title,
			measures,
			source.words.replace(/\[[^\]]*\]/g, ''),
			...steps,
			...budget,
			...asks.flatMap((ask) => [ask.label, ask.words]),
			hookUp.point,
			hookUp.why,
		]),
	];
	const units = ['V', 'uV', 'mV', 'mfd', 'kHz', 'Hz', 'dB', 'mmf', 'mW'];
	const latin = words.flatMap((said) => said.match(/[A-Za-z]+/g) ?? []).filter((word) => !units.includes(word));
	expect(latin).toEqual([]);
});

test('every sentence that is printed stands in the list of sentences', () => {
	reportDocument(paper());
	const listed = new Set(sentences());
	const frequency = /^[\d,.]+ (?:c|kc|Mc)$/;
	expect([...asked].filter((sentence) => !listed.has(sentence) && !frequency.test(sentence))).toEqual([]);
});
