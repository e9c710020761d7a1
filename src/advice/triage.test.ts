import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { SetCard } from '#record/set-card.ts';
import { type SetFacts, setFacts } from '#record/set-facts.ts';
import { judgeTriage, triageQuestions } from './triage.ts';

// The rules checked here are common practice of the trade: alignment is the last job, after repair.

function factsOf(change: Partial<SetCard> = {}): SetFacts {
	const facts = setFacts({ schema: 'peakwright/set-card', version: 1, supply: 'transformer', ...change });
	if (!facts.ok) throw new Error(facts.words);
	return facts.value;
}

const sound = {
	restored: 'yes',
	'b-plus': '250 V',
	bias: 'yes',
	hum: 'yes',
	quiet: 'yes',
	oscillator: 'yes',
	avc: 'yes',
	plays: 'yes',
	dial: 'yes',
	near: 'yes',
	untouched: 'yes',
};
const verdict = (change: Readonly<Record<string, string>> = {}, card: Partial<SetCard> = {}) =>
	judgeTriage(factsOf(card), { ...sound, ...change });

test('a sound set that plays well is left alone', () => {
	expect(verdict().kind).toBe('leave alone');
	expect(verdict().mayGoOn).toBe(true);
});

test('a set a little weak or off is touched up; one far out or tampered with is aligned in full', () => {
	expect(verdict({ plays: 'no' }).kind).toBe('touch up');
	expect(verdict({ dial: 'no' }).kind).toBe('touch up');
	expect(verdict({ dial: 'no', near: 'no' }).kind).toBe('full alignment');
	expect(verdict({ plays: 'no', untouched: 'no' }).kind).toBe('full alignment');
});

test('each fault alone asks for repair first, says why and how, and closes the way to alignment', () => {
	for (const id of ['restored', 'bias', 'hum', 'quiet', 'oscillator', 'avc']) {
		const found = verdict({ [id]: 'no', plays: 'no', untouched: 'no' });
		expect(found.kind, id).toBe('repair first');
		expect(found.mayGoOn).toBe(false);
		expect(found.reasons).toHaveLength(1);
		expect(found.wouldChange.length).toBeGreaterThan(1);
	}
});

test('B-plus is held against the chart within a fifth, and against the kind of supply without one', () => {
	expect(verdict({ 'b-plus': '250 V', 'b-plus-chart': '300 V' }).kind).toBe('leave alone'); // 17 % below
	expect(verdict({ 'b-plus': '230 V', 'b-plus-chart': '300 V' }).reasons.join()).toContain('23 % below');
	expect(verdict({ 'b-plus': '400 V', 'b-plus-chart': '300 V' }).kind).toBe('repair first');
	expect(verdict({ 'b-plus': '20 V' }).kind).toBe('repair first');
	// A chart that says nothing is none: no share of nought is reckoned.
	expect(verdict({ 'b-plus': '250 V', 'b-plus-chart': '0 V' }).kind).toBe('leave alone');
	expect(verdict({ 'b-plus': '95 V' }, { supply: 'ac-dc' }).kind).toBe('leave alone');
});

test('what is not answered, or answered without a unit, leaves it unsettled', () => {
	expect(verdict({ 'b-plus': '250' }).kind).toBe('not settled');
	expect(verdict({ hum: '' }).reasons.join()).toContain('Hum low');
	expect(judgeTriage(factsOf(), {}).mayGoOn).toBe(false);
});

test('a set without AVC is not asked for it', () => {
	expect(triageQuestions(factsOf({ avc: 'none' })).map(({ id }) => id)).not.toContain('avc');
	expect(verdict({ avc: 'no' }, { avc: 'none' }).kind).toBe('leave alone');
});

test('the way to alignment is open only when every fault question is answered yes', () => {
	const facts = factsOf();
	const answer = fc.constantFrom('yes', 'no', '', 'perhaps');
	fc.assert(
		fc.property(fc.record(Object.fromEntries(Object.keys(sound).map((id) => [id, answer]))), (answers) => {
			const given = { ...answers, 'b-plus': '250 V' } as Record<string, string>;
			const isSound = ['restored', 'bias', 'hum', 'quiet', 'oscillator', 'avc'].every((id) => given[id] === 'yes');
			return isSound || !judgeTriage(facts, given).mayGoOn;
		}),
	);
});
