import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { frequencyUnits, wordsNames } from '#record/language.ts';
import { decibelsOf } from '#record/level-unit.ts';
import type { RunEntry } from '#record/run.ts';
import { benchCard } from '#report/bench-card.ts';
import { htmlPage } from '#report/html-page.ts';
import type { PrintedDocument } from '#report/printed-document.ts';
import { reportDocument } from '#report/report-document.ts';
import { printedAlbum } from '../../test/printed-album.ts';
import { provedRun } from '../../test/proved-run.ts';
import { pdfOf } from './pdf.ts';
import { type ReportAsked, runReport } from './run-report.ts';

const folder = process.env.PEAKWRIGHT_SHOTS ?? mkdtempSync(join(tmpdir(), 'peakwright-'));
mkdirSync(folder, { recursive: true });

let entries: RunEntry[] = [];
beforeAll(async () => {
	entries = await provedRun();
});

function paperOf(asked: ReportAsked, of = entries) {
	const report = runReport('proved-run', of, asked);
	if (!report.ok) throw new Error(report.words);
	return report.value;
}

/** Pages and words of a document as a reader of PDF finds them. */
async function readBack(document: PrintedDocument, name: string) {
	const pdf = await pdfOf(document);
	if (!pdf.ok) throw new Error(pdf.words);
	const file = join(folder, `${name}.pdf`);
	writeFileSync(file, pdf.value);
	const told = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
	const words = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
	return { pages: Number(/Pages:\s+(\d+)/.exec(told)?.[1]), told, words, bytes: pdf.value.length };
}

test('levels that the generator’s own table corrects are said to be so, with its day', () => {
	const last = entries.at(-1) as RunEntry;
	const trial = (k: number, markedV: number, readDb: number): RunEntry => ({
		id: `trial-${k}`,
		run: last.run,
		order: last.order + 1 + k,
		atMs: last.atMs,
		what: {
			kind: 'generator trial',
			generator: 'service generator',
			read: {
				about: 'attenuator',
				markedDb: decibelsOf(markedV),
				markedIn: 'volts',
				readDb: { value: readDb, uncertainty: 0.1 },
			},
		},
	});
	const told = (of: RunEntry[]) => JSON.stringify(reportDocument(paperOf({ paper: 'A4' }, of)));
	// What is marked 100 uV gives 2 dB less than ten times what is marked 10 uV.
	const corrected = told([...entries, trial(0, 10e-6, -60), trial(1, 100e-6, -42)]);
	expect(corrected).toContain('Its levels are corrected by its own table, read on 1 March 2026.');
	expect(told(entries)).not.toContain('corrected by its own table');
});

test('the report is two to four pages, the owner first, and reads back what the run proved', async () => {
	for (const paper of ['A4', 'Letter']) {
		const document = reportDocument(paperOf({ paper, shop: 'J. Smith, Main Street 1' }));
		const { pages, told, words, bytes } = await readBack(document, `report-${paper}`);
		expect(pages).toBeGreaterThanOrEqual(2);
		expect(pages).toBeLessThanOrEqual(4);
		expect(told).toMatch(/Tagged:\s+yes/);
		expect(bytes).toBeLessThan(2e6);
		const [owner = '', ...rest] = words.split('\f');
		expect(owner).toMatch(/Stations about \d+ times weaker than before now come in as loud/);
		expect(owner).toContain('J. Smith, Main Street 1');
		expect(owner).toContain('keeping neighbouring stations apart');
		expect(owner).toContain('nothing of wood and wire was measured');
		expect(owner).toContain('Local codes and licensed practice come first');
		const further = rest.join(' ');
		for (const wanted of [
			'IF as designed',
			'455 kc',
			'C14 0.05 mfd',
			'+3/8; \u22121/8',
			'Kennedy, as quoted on a teaching page: 400 c, 30 %, 50 mW (source read)',
			'the times are customary (custom, from memory)',
			'not counted: pencil mark',
			'Sensitivity at 1,000 kc',
			'Local codes and licensed practice come first',
			'within 2 dB',
			'IF curve as read: points as it was left',
			'middle of the curve 6 dB down',
			'IF as left',
			'Dial errors, ',
			'full as it was left',
			'Raw readings',
			'Edge above, 1000 times',
		])
			expect(further).toContain(wanted);
	}
});

test('frequencies are printed in the units that were chosen, in tables and drawings too', async () => {
	const { words } = await readBack(reportDocument(paperOf({ units: 'm', words: 'UK' })), 'report-metres');
	expect(words).toContain('Sensitivity at 1,000 kHz (300 m)');
	expect(words).toContain('600 kHz (500 m)');
	// 299,792.458 m kHz. Only places of the dial are printed in metres: no IF, and nothing that a generator stood at.
	expect(words).toMatch(/IF as designed\s+455 kHz\n/);
	const [proved = '', raw = ''] = words.split('as they were typed');
	expect(proved).not.toMatch(/\bkc\b/);
	expect(raw).toContain('991.50 kc');
	expect(runReport('proved-run', entries, { units: 'miles' })).toMatchObject({
		ok: false,
		words: 'units: cannot use "miles": give kc, kHz or m',
	});
});

test('every combination of paper, words and units is two to four pages with photographs too, its bench card one', async () => {
	const photos = await printedAlbum(20);
	for (const paper of ['A4', 'Letter'])
		for (const words of wordsNames)
			for (const units of frequencyUnits) {
				const asked = { ...paperOf({ paper, words, units, shop: 'J. Smith, Main Street 1' }), photos };
				const { pages } = await readBack(reportDocument(asked), `report-${paper}-${words}-${units}`);
				expect(pages).toBeGreaterThanOrEqual(2);
				expect(pages).toBeLessThanOrEqual(4);
				expect((await readBack(benchCard(asked), `card-${paper}-${words}-${units}`)).pages).toBe(1);
			}
});

test('few photographs are printed large, before beside after on the owner’s page; of many it is said how many more are kept', async () => {
	const [numbered, second, before, after] = await printedAlbum(4);
	if (!numbered || !second || !before || !after) throw new Error('four photographs');
	for (const paper of ['A4', 'Letter']) {
		const few = { ...paperOf({ paper }), photos: [numbered, second, before, after] };
		const { pages, words } = await readBack(reportDocument(few), `report-few-${paper}`);
		expect(pages).toBeLessThanOrEqual(4);
		const [owner = '', ...rest] = words.split('\f');
		expect(owner).toContain('Photograph 3 (before)');
		expect(owner).toContain('Photograph 4 (after)');
		expect(rest.join(' ')).toContain('Photograph 1');
	}
	const many = await readBack(reportDocument({ ...paperOf({}), photos: await printedAlbum(20) }), 'report-many');
	expect(many.words).toContain('8 more photographs are kept with the set.');
});

test('the longest names that a card can hold leave the bench card one page, and stand whole in the report', async () => {
	const long = 'Wireless Works of the Northern Provinces '.repeat(5).slice(0, 200);
	const named = entries.map((entry) => {
		if (entry.what.kind !== 'started') return entry;
		const { card } = entry.what;
		const adjusters = card.adjusters?.map((one) => ({ ...one, name: long })) ?? [];
		const tubes = card.tubes?.map(() => ({ stage: long, type: long })) ?? [];
		const bands = card.bands?.map((one) => ({ ...one, name: long })) ?? [];
		return { ...entry, what: { ...entry.what, card: { ...card, maker: long, model: long, adjusters, tubes, bands } } };
	});
	for (const paper of ['A4', 'Letter']) {
		const asked = { ...paperOf({ paper, shop: long }, named), photos: await printedAlbum(4) };
		expect((await readBack(benchCard(asked), `card-long-${paper}`)).pages).toBe(1);
		const { words } = await readBack(reportDocument(asked), `report-long-${paper}`);
		expect(words.replace(/\s+/g, ' ')).toContain(`${long} ${long}`.replace(/\s+/g, ' ').trim());
	}
});

test('a set of many bands, tubes and adjusters has four pages and one; those that nobody turned are told in a line', async () => {
	const many = entries.map((entry) => {
		if (entry.what.kind !== 'started') return entry;
		const { card } = entry.what;
		const [band] = card.bands ?? [];
		const [tube] = card.tubes ?? [];
		const own = card.adjusters ?? [];
		const [first] = own;
		if (!band || !tube || !first) throw new Error('a card with bands, tubes and adjusters');
		const further = Array.from({ length: 40 }, (_, k) => ({
			...first,
			id: `further-${k}`,
			name: `Trimmer C${k + 20}`,
		}));
		const bands = Array.from({ length: 6 }, (_, k) =>
			k === 0 ? band : { ...band, id: `band-${k}`, name: `Short ${k}` },
		);
		const tubes = Array.from({ length: 20 }, () => tube);
		return { ...entry, what: { ...entry.what, card: { ...card, adjusters: [...own, ...further], bands, tubes } } };
	});
	for (const paper of ['A4', 'Letter']) {
		const asked = { ...paperOf({ paper }, many), photos: await printedAlbum(4) };
		const { pages, words } = await readBack(reportDocument(asked), `report-many-adjusters-${paper}`);
		expect(pages).toBeLessThanOrEqual(4);
		expect(words).toContain('As found: 8 C3 pad, 9 Trimmer C20');
		const card = await readBack(benchCard(asked), `card-many-adjusters-${paper}`);
		expect(card.pages).toBe(1);
		expect(card.words).toMatch(/48 +Trimmer C59 +0/);
		expect(card.words).toContain('Plus is clockwise, 0 as found.');
	}
});

test('the bench card is one page with plan, IF and cautions', async () => {
	const { pages, words } = await readBack(benchCard(paperOf({})), 'card');
	expect(pages).toBe(1);
	expect(words).toContain('455 kc');
	expect(words).toContain('Danger.');
	expect(words).toContain('counter-clockwise');
});

test('a run without tests still prints and claims nothing; hostile and long words stay words', async () => {
	const shop = `\u202ebackwards \u{1f4fb} ${'very long '.repeat(60)} #eval("1") </style><script>`;
	const few = entries.filter(({ what }) => what.kind !== 'test reading' && what.kind !== 'test gear');
	const document = reportDocument(paperOf({ shop, words: 'UK' }, few));
	const { pages, words } = await readBack(document, 'untested');
	expect(pages).toBeLessThanOrEqual(4);
	expect(words).toContain('claims nothing');
	expect(words).not.toContain('Stations about');
	expect(words).toContain('Aerial');
	expect(htmlPage(document)).not.toContain('<script>');
	// What turns the direction in a name does not turn the line that it stands in.
	const turned = {
		...document,
		footer: `\u202eTM-517 \u00b7 report`,
		title: `\u05d0\u05d1 \u{1f4fb} ${'Wireless '.repeat(55)}`,
	};
	const hostile = await readBack(turned, 'hostile-name');
	expect(hostile.words).toMatch(/TM-517 . report +page 1 of \d/);
	expect(hostile.pages).toBeLessThanOrEqual(4);
});

test('names of emoji, of right-to-left writing and of marks that turn it are printed, on photographs too', async () => {
	const name = '\u{1f4fb}\u202e\u05e8\u05d3\u05d9\u05d5 \u0631\u0627\u062f\u064a\u0648 #x $y$ <b>';
	const named = entries.map((entry) => {
		if (entry.what.kind !== 'started') return entry;
		const { card } = entry.what;
		const adjusters = card.adjusters?.map((one) => ({ ...one, name })) ?? [];
		return { ...entry, what: { ...entry.what, card: { ...card, maker: name, adjusters } } };
	});
	const album = await printedAlbum(4);
	const photos = album.map((one) => ({ ...one, photo: { ...one.photo, caption: `${name} TM-517` } }));
	const asked = { ...paperOf({ shop: name }, named), photos };
	for (const document of [reportDocument(asked), benchCard(asked)]) {
		const { pages, words } = await readBack(document, 'hostile-names');
		expect(pages).toBeLessThanOrEqual(4);
		expect(words).toContain('TM-517');
		expect(words).toContain('#x $y$ <b>');
		expect(htmlPage(document)).not.toContain('<b>');
	}
});

test('what cannot be printed is said in one sentence', () => {
	expect(runReport('x', entries, { paper: 'A3' })).toMatchObject({
		ok: false,
		words: expect.stringContaining('A4 or Letter'),
	});
	expect(runReport('x', entries, { words: 'FR' })).toMatchObject({ ok: false });
	expect(runReport('nowhere', [], {})).toMatchObject({ ok: false, words: expect.stringContaining('no run') });
});
