/** Readers of cards, descriptions, archives and runs: JSON from outside, through everything that is made of it. */

import { readFileSync } from 'node:fs';
import { makeSheet } from '../../src/advice/sheet.ts';
import { usualOptions } from '../../src/advice/sheet-options.ts';
import { runState } from '../../src/bench/run-state.ts';
import { chassisPlan } from '../../src/draw/chassis-plan.ts';
import { parseExchange } from '../../src/record/exchange.ts';
import { parseInstrumentDescription, rangeEnds } from '../../src/record/instrument-description.ts';
import { usualLanguage } from '../../src/record/language.ts';
import { parseSetCard } from '../../src/record/set-card-file.ts';
import { setFacts } from '../../src/record/set-facts.ts';
import { benchCard } from '../../src/report/bench-card.ts';
import { htmlPage } from '../../src/report/html-page.ts';
import { reportDocument } from '../../src/report/report-document.ts';
import { sheetDocument } from '../../src/report/sheet-document.ts';
import { namedPlace } from '../../src/server/named-place.ts';
import { runReport } from '../../src/server/run-report.ts';
import { workQuestion } from '../../src/wire/host-messages.ts';
import { entriesQuestion } from '../../src/wire/messages.ts';
import { exampleSets, exampleText } from '../../test/example-set.ts';
import { provedRun } from '../../test/proved-run.ts';
import { type FuzzedParser, holds, refusal, textOf } from './parser.ts';

const cards = exampleSets().map(exampleText);
const instrumentText = (file: string): string => readFileSync(`examples/instruments/${file}`, 'utf8');
const cardWords = [
	'"supply":"ac-dc"',
	'"stage":"IF"',
	'"455 kc"',
	'"unknown"',
	'"bands":[]',
	'"adjusters":[]',
	'"low":"540 kc"',
	'"x":0.5',
	'"version":2',
	'""',
];

/**
 * A page for people holds no element but the program's own, whatever stands in the record, and no figure that is none.
 * @param input the record: what stands in it may stand in the page
 */
function holdsAsPage(html: string, input: string): void {
	holds(
		!/<script|\son(error|load|click)\s*=|<iframe|<img/i.test(html.replaceAll(/<style>[\s\S]*?<\/style>/g, '')),
		'a page with an element from outside',
	);
	holds(noFigure.test(input) || !noFigure.test(html), 'a page with a figure that is none');
}
const noFigure = /NaN|Infinity|undefined|\[object/;

const card: FuzzedParser = {
	name: 'cards',
	form: 'json',
	begins: cards,
	words: cardWords,
	judge(input) {
		const read = parseSetCard(textOf(input));
		if (!read.ok) return refusal(read.words);
		const facts = setFacts(read.value);
		if (!facts.ok) return refusal(facts.words);
		chassisPlan(read.value, null);
		const sheet = makeSheet(facts.value, usualOptions);
		if (!sheet.ok) return refusal(sheet.words);
		holds(sheet.value.steps.length > 0, 'a sheet without steps');
		holdsAsPage(
			htmlPage(
				sheetDocument({
					facts: facts.value,
					sheet: sheet.value,
					language: usualLanguage,
					photos: [],
					paper: 'A4',
					day: '2026-01-01',
				}),
			),
			textOf(input),
		);
		return `${facts.value.bands.length} bands, ${sheet.value.steps.length} steps`;
	},
};

const description: FuzzedParser = {
	name: 'descriptions',
	form: 'json',
	begins: ['plain-generator.json', 'serial-voltmeter.json'].map(instrumentText),
	words: [
		'"send":"FREQ {}"',
		'{}',
		'"unit":"kHz"',
		'"least":0',
		'"most":1e9',
		'"terminator":"CR"',
		'"digits":3',
		'\\n',
		'"baud":9600',
	],
	judge(input) {
		const read = parseInstrumentDescription(textOf(input));
		if (!read.ok) return refusal(read.words);
		const { generator, meter } = read.value;
		for (const verb of generator ? [generator['set frequency'], generator['set level']] : [])
			for (const line of rangeEnds(verb))
				holds(/^[\x20-\x7e]+$/.test(line), `a line to the instrument that is none: ${JSON.stringify(line)}`);
		return `${generator ? 'generator' : ''} ${meter ? 'meter' : ''}`;
	},
};

const entries = await provedRun();
const exported = (some: typeof entries): string =>
	JSON.stringify({
		schema: 'peakwright/export',
		version: 1,
		sets: [{ id: 'one', cards: [{ changedAtMs: 1, card: JSON.parse(cards[0] as string) }], entries: some }],
	});

const archive: FuzzedParser = {
	name: 'exports',
	form: 'json',
	begins: [exported(entries.slice(0, 12)), exported([]), exported(entries.slice(30, 40))],
	words: ['"sets":[]', '"entries":[]', '"cards":[]', '"changedAtMs":0', '"kind":"note"', '"order":0', '"version":2'],
	judge(input) {
		const read = parseExchange(textOf(input));
		if (!read.ok) return refusal(read.words);
		const again = parseExchange(JSON.stringify(read.value));
		holds(
			again.ok && JSON.stringify(again.value) === JSON.stringify(read.value),
			'an archive that changes when it is written and read',
		);
		return `${read.value.sets.length} sets, ${read.value.sets.map((set) => set.entries.length).join()}`;
	},
};

/** What a body says as JSON; nothing where it is none. */
function jsonOf(input: Uint8Array): unknown {
	try {
		return JSON.parse(textOf(input));
	} catch {
		return undefined;
	}
}

const run: FuzzedParser = {
	name: 'runs',
	form: 'json',
	// Short runs, one for each kind of entry, and two longer ones.
	begins: [
		...[...new Set(entries.map(({ what }) => what.kind))].map((kind) => [
			...entries.slice(0, 1),
			...entries.filter(({ what }) => what.kind === kind && kind !== 'started').slice(0, 2),
		]),
		entries.slice(0, 30),
		[...entries.slice(0, 1), ...entries.slice(-25)],
	].map((some) => JSON.stringify({ entries: some })),
	words: [
		'"kind":"note"',
		'"kind":"level"',
		'"kind":"adjusted"',
		'"eighths":null',
		'"value":1e308',
		'"uncertainty":0',
		'"uncertainty":null',
		'"frequencyHz":0',
		'"order":1e15',
		'"atMs":-1',
		'"atMs":1e308',
		'"value":-0',
		'[]',
	],
	judge(input) {
		const body = jsonOf(input);
		if (body === undefined) return 'not JSON';
		const read = entriesQuestion.safeParse(body);
		if (!read.success) return refusal(read.error.issues[0]?.message ?? '');
		// What was accepted is kept for ever: it must be possible to take the run up again and to print it.
		const own = read.data.entries;
		for (const { atMs } of own) new Date(atMs).toISOString();
		const state = runState(own[0]?.run ?? '', own);
		const report = runReport(own[0]?.run ?? '', own, {});
		if (!report.ok) return `${own.length > 10} ${refusal(report.words)}`;
		holdsAsPage(htmlPage(reportDocument(report.value)), textOf(input));
		benchCard(report.value);
		return `${state.turns.length} turns, ${state.testReadings.length} readings, ${state.sweeps.length} sweeps`;
	},
};

const instrument = {
	place: '127.0.0.1:5025',
	description: instrumentText('plain-generator.json'),
};

const work: FuzzedParser = {
	name: 'works',
	form: 'json',
	begins: [
		{ kind: 'IF curve', role: 'base', adjusters: ['t1-primary'] },
		{ kind: 'dial', band: 'broadcast', marksHz: [600e3, 1400e3] },
		{ kind: 'tests', moment: 'before', tests: ['sensitivity'] },
		{ kind: 'AVC curve' },
	].map((plan) => JSON.stringify({ run: 'r1', generator: instrument, meter: instrument, plan })),
	words: ['"place":""', '"description":null', '"kind":"avc"', '"run":"../x"', '"levelV":1e308'],
	judge(input) {
		const body = jsonOf(input);
		if (body === undefined) return 'not JSON';
		const read = workQuestion.safeParse(body);
		if (!read.success) return refusal(read.error.issues[0]?.message ?? '');
		for (const named of [read.data.generator, read.data.meter]) {
			const place = namedPlace(named);
			if (!place.ok) return refusal(place.words, 700);
		}
		return read.data.plan.kind;
	},
};

export const recordParsers: readonly FuzzedParser[] = [card, description, archive, run, work];
