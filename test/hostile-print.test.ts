import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { usualLanguage } from '../src/record/language.ts';
import type { RunEntry } from '../src/record/run.ts';
import { checkSetCard } from '../src/record/set-card-file.ts';
import { benchCard } from '../src/report/bench-card.ts';
import { htmlPage } from '../src/report/html-page.ts';
import type { PrintedDocument } from '../src/report/printed-document.ts';
import { reportDocument } from '../src/report/report-document.ts';
import { sheetDocument } from '../src/report/sheet-document.ts';
import { pdfOf } from '../src/server/pdf.ts';
import { runReport } from '../src/server/run-report.ts';
import { sheetOf } from './example-set.ts';
import { printedAlbum } from './printed-album.ts';
import { provedRun } from './proved-run.ts';

/** What a person may write freely, and how long it may be. */
const freeWords: Readonly<Record<string, number>> = {
	...{ maker: 200, model: 200, chassis: 200, name: 200, stage: 200, type: 200, source: 200, notes: 500 },
	...{ generator: 200, meter: 200, words: 200, text: 500, caption: 200 },
};
/** Writing from right to left, a radio set as one sign, a mark that turns what follows, letters that typesetter and browser would obey, and one word without end. */
const hostile = `\u202e\u05e8\u05d3\u05d9\u05d5 \u{1f4fb} \u0631\u0627\u062f\u064a\u0648 #panic("x") $a$ <script>x</script> `;
const longest = (most: number): string => hostile + 'W'.repeat(most - hostile.length);

/** The same with every free word at its longest; the stage of an adjuster is a choice and stays. */
function filled<Value>(value: Value, parent = ''): Value {
	if (Array.isArray(value)) return value.map((one) => filled(one, parent)) as Value;
	if (typeof value !== 'object' || value === null) return value;
	const entries = Object.entries(value).map(([key, one]) => {
		const most = key === 'stage' && parent !== 'tubes' ? undefined : freeWords[key];
		return [key, typeof one === 'string' && most !== undefined ? longest(most) : filled(one, key)];
	});
	return Object.fromEntries(entries) as Value;
}

async function expectPrinted(document: PrintedDocument, mostPages: number): Promise<void> {
	const pdf = await pdfOf(document);
	if (!pdf.ok) throw new Error(pdf.words);
	const told = execFileSync('pdfinfo', ['-'], {
		input: pdf.value,
		encoding: 'utf8',
		stdio: ['pipe', 'pipe', 'ignore'],
	});
	expect(Number(/Pages:\s+(\d+)/.exec(told)?.[1])).toBeLessThanOrEqual(mostPages);
	expect(told).toMatch(/Tagged:\s+yes/);
	const words = execFileSync('pdftotext', ['-', '-'], { input: pdf.value, encoding: 'utf8' });
	expect(words).toContain('#panic("x") $a$ <script>');
	expect(words).toContain('Local codes and licensed practice come first');
	expect(htmlPage(document)).not.toContain('<script>');
}

test('sheet, report and bench card are printed with every free word at its longest, of signs and of writing from right to left', async () => {
	const entries: readonly RunEntry[] = filled(await provedRun());
	const report = runReport('proved-run', entries, { shop: longest(300) });
	if (!report.ok) throw new Error(report.words);
	const { facts } = report.value;
	expect(facts.card.maker).toHaveLength(200);
	expect(facts.card.adjusters?.[0]?.name).toHaveLength(200);
	const photos = filled(await printedAlbum(4));
	await expectPrinted(reportDocument({ ...report.value, photos }), 8);
	await expectPrinted(benchCard({ ...report.value, photos }), 1);
	await expectPrinted(
		sheetDocument({ facts, sheet: sheetOf(facts), language: usualLanguage, photos, paper: 'A4', day: '1 March 2026' }),
		20,
	);
});

test('a name of 500 letters is refused in one sentence that says where it stands', async () => {
	const [started] = await provedRun();
	if (started?.what.kind !== 'started') throw new Error('no card');
	for (const [key, where] of [
		['maker', 'maker'],
		['model', 'model'],
	] as const) {
		const checked = checkSetCard({ ...started.what.card, [key]: longest(500) });
		expect(checked).toMatchObject({ ok: false, words: expect.stringContaining(where) });
		expect(checked.ok || checked.words.length).toBeLessThan(200);
	}
});
