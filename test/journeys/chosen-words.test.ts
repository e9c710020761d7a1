import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { partForms } from '../../src/advice/parts/part-form.ts';
import { troubles } from '../../src/advice/trouble/troubles.ts';
import { languageOf } from '../../src/record/language.ts';
import { lessons } from '../../src/rehearsal/lessons.ts';
import { demoSet, exampleCard } from '../example-set.ts';
import { answerPreparation, chooseMeter, openPage, passGates, settled } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

const set = demoSet;
const card = exampleCard();
/** What the card's writer typed, whole and as it may stand in a sentence. */
const typed: readonly string[] = [...JSON.stringify(card).matchAll(/"((?:[^"\\]|\\.)*)"/g)].map(
	([, words = '']) => words,
);
const names = [...(card.adjusters ?? []), ...(card.bands ?? [])].flatMap(({ name }) => name ?? []);
const british = languageOf('UK', 'kHz');
/** American words and kilocycles, whatever the language's own table says of them. */
const american = /\b(?:kc|Mc|[Tt]ubes?|[Aa]ntennas?|[Pp]late|grounded|B-plus|[Vv]oice coil)\b/;

/** Every word on the page that somebody sees or hears: text, labels, hints and what stands in its fields. */
function wordsOn(page: Page): Promise<{ text: string; isField: boolean }[]> {
	return page.evaluate(() => {
		const found: { text: string; isField: boolean }[] = [];
		const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
		while (walker.nextNode()) {
			const { data, parentElement } = walker.currentNode as Text;
			// The choice of words and units names them all.
			const isChoice = parentElement?.matches('option:is([value=US], [value=UK], [value=kc], [value=kHz], [value=m])');
			const isOption = ['US', 'UK', 'kc', 'kHz', 'm'].includes(data) && parentElement?.matches('option');
			if (!isChoice && !isOption && !parentElement?.matches('script, style'))
				found.push({ text: data, isField: false });
		}
		for (const element of document.querySelectorAll('body *')) {
			for (const name of ['aria-label', 'placeholder', 'title', 'alt', 'aria-valuetext'])
				found.push({ text: element.getAttribute(name) ?? '', isField: false });
			if (element instanceof HTMLInputElement && element.type !== 'radio' && element.type !== 'checkbox')
				found.push({ text: element.value, isField: true });
		}
		return found;
	});
}

/** What is not in the words and units that were chosen; what the card's writer typed is left out. */
async function unchosen(page: Page): Promise<string[]> {
	const words = await wordsOn(page);
	expect(words.length).toBeGreaterThan(20);
	return words.flatMap(({ text, isField }) => {
		const own = names.reduce((left, name) => left.replaceAll(name, ''), text.trim().replace(/\s+/g, ' '));
		if (isField && own.split(', ').every((part) => typed.includes(part))) return [];
		return american.test(own) || british.term(own) !== own ? [own] : [];
	});
}

test('with British words and kilohertz chosen no screen speaks otherwise', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.evaluate(() => {
		localStorage.setItem('report words', 'UK');
		localStorage.setItem('report units', 'kHz');
	});
	await page.reload();
	const found: Record<string, string[]> = {};
	const look = async (place: string): Promise<void> => {
		const said = await unchosen(page);
		if (said.length > 0) found[place] = [...new Set([...(found[place] ?? []), ...said])];
	};
	const go = async (place: string): Promise<void> => {
		await page.goto(`${program.address}/#/${place}`);
		await settled(page);
		await look(place);
	};
	for (const place of [
		'shelf',
		'new',
		'instruments',
		'practice',
		...lessons.map(({ id }) => `practice/${id}`),
		'trouble',
		...Object.keys(troubles).map((id) => `trouble/${id}`),
		'parts',
		...Object.keys(partForms).map((id) => `parts/${id}`),
		...['card', 'photos', 'sheet', 'record'].map((screen) => `${screen}/${set}`),
	])
		await go(place);
	await go(`trouble/weak/three-points=alike,adjuster-dead=all?of=${set}`);
	await go(`trouble/end-of-travel/adjuster-end=if-tight,aim=on,ohms=alike,since=itself`);
	await go('parts/padder');
	for (const [label, words] of [
		['Band', '540kHz-1600kHz'],
		['IF', '455kHz'],
		['Gang, one section', '365mmf'],
	] as const)
		await page.getByLabel(label, { exact: true }).fill(words);
	await page.getByRole('button', { name: 'Work it out' }).click();
	await page.getByRole('heading', { name: 'For the sheet' }).waitFor();
	await look('parts, worked out');

	const begin = async (screen: string): Promise<void> => {
		await go(`shelf`);
		await go(`${screen}/${set}`);
		await page.getByRole('button', { name: 'Begin a run' }).click();
	};
	const gates = async (place: string): Promise<void> => {
		await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
		await look(`${place}, gate`);
		await passGates(page);
		await look(`${place}, after the gate`);
	};
	await begin('bench');
	await gates('bench');
	for (let step = 0; step < 3; step++) {
		await page.getByRole('button', { name: 'Begin this step' }).click();
		await look(`bench, step ${step}`);
		if (step === 0) {
			await page.getByLabel('HT at the filter output').fill('95 V');
			for (const question of await page.locator('.question select').all()) await question.selectOption('yes');
			await page.getByLabel('Screws as they were set before').selectOption('no');
			await look('bench, triage');
		} else await answerPreparation(page);
		await page.getByRole('button', { name: 'This step is done' }).click();
	}
	await gates('bench, IF');
	await page.getByRole('button', { name: 'Begin this step' }).click();
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await look('bench, adjuster');
	await chooseMeter(page, 'typed');
	await page.getByRole('textbox', { name: 'Reading' }).fill('1.0 V');
	await page.keyboard.press('Enter');
	await page.getByText('1.0 V').waitFor();
	await look('bench, needle');

	await begin('response');
	await gates('response');
	await page.getByRole('button', { name: 'Begin the sweep' }).click();
	await look('response, begun');
	await page.getByRole('button', { name: 'Read them all' }).click();
	await page.getByText('One sweep cannot tell').waitFor();
	await page.getByRole('slider', { name: 'Cursor' }).press('ArrowRight');
	await look('response, swept');

	await begin('dial');
	await gates('dial');
	await page.getByRole('button', { name: 'Keep', exact: true }).click();
	for (const words of ['538.5', '597.6 kHz', '695.5', '793 kHz']) {
		const mark = await page.locator('.sit strong').first().textContent();
		await look('dial, mark');
		await page.getByRole('textbox', { name: 'Comes in' }).fill(words);
		await page.keyboard.press('Enter');
		await page.getByRole('button', { name: `${mark}, read` }).waitFor();
	}
	await look('dial, found');
	await page.getByRole('button', { name: 'Begin the acts' }).click();
	await look('dial, acts');

	await begin('tests');
	await look('tests, gear');
	await page.getByRole('button', { name: 'Read with this' }).click();
	await gates('tests');

	await go(`record/${set}`);
	const runs = await page.getByRole('heading', { name: /^Run of/ }).count();
	for (let run = 0; run < runs; run++) {
		// The one that is open has no button.
		await page
			.getByRole('button', { name: /^Show its/ })
			.nth(Math.max(0, run - 1))
			.click();
		await page.getByRole('cell').first().waitFor();
		await look(`record, run ${run}`);
	}
	expect(found).toEqual({});
	expect(faults).toEqual([]);
}, 300_000);
