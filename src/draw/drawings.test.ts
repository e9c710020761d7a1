import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { makeSheet, usualOptions } from '#advice/sheet.ts';
import type { SetCard } from '#record/set-card.ts';
import { parseSetCard } from '#record/set-card-file.ts';
import { setFacts } from '#record/set-facts.ts';
import { chassisPlan } from './chassis-plan.ts';
import { hookUpDrawing } from './hook-up.ts';
import { needle, needleDegrees } from './needle.ts';

function demo(): SetCard {
	const parsed = parseSetCard(readFileSync('examples/thistlemoor-tm-517.json', 'utf8'));
	if (!parsed.ok) throw new Error(parsed.words);
	return parsed.value;
}

test('every adjuster stands on the plan once, with its number, and only the one in hand is filled', () => {
	const card = demo();
	const plan = chassisPlan(card, 'padder');
	for (const [index, { id }] of (card.adjusters ?? []).entries()) {
		const tags = plan.match(new RegExp(`data-adjuster="${id}".*?</g>`, 'g')) ?? [];
		expect(tags).toHaveLength(1);
		expect(tags[0]).toContain(`>${index + 1}</text>`);
	}
	expect(plan.match(/class="tag[^"]* active"/g)).toHaveLength(1);
});

test('an adjuster without a place is drawn beside the chassis and that is said', () => {
	const plan = chassisPlan({ ...demo(), adjusters: [{ id: 'a', name: 'a', stage: 'other', kind: 'other' }] }, null);
	expect(plan).toContain('place not on the card');
});

test('a hostile name stays text', () => {
	const plan = chassisPlan(
		{ ...demo(), adjusters: [{ id: 'a', name: '<script>"&', stage: 'other', kind: 'other' }] },
		null,
	);
	expect(plan).not.toContain('<script>');
	expect(plan).toContain('&lt;script&gt;&quot;&amp;');
});

test('the hook-up names point, dummy and ground, and shows isolation where it is needed', () => {
	const facts = setFacts(demo());
	const sheet = facts.ok ? makeSheet(facts.value, usualOptions) : facts;
	if (!sheet.ok) throw new Error(sheet.words);
	const step = sheet.value.steps.find(({ id }) => id === 'wave-trap');
	if (!step) throw new Error('missing step');
	const drawing = hookUpDrawing(step, true) ?? '';
	for (const words of ['antenna terminal', '200 mmf', 'B-minus', 'isolation']) expect(drawing).toContain(words);
	expect(hookUpDrawing(step, false)).not.toContain('isolation');
});

test('the pointer rises to the right as the level nears the best', () => {
	const degrees = [20, 10, 6, 3, 1, 0, -1].map(needleDegrees);
	expect(degrees).toEqual([...degrees].sort((a, b) => a - b));
	expect(needleDegrees(0)).toBeGreaterThan(0);
	expect(needleDegrees(400)).toBe(needleDegrees(20));
	expect(needle(null)).not.toContain('class="pointer"');
	expect(needle(3)).toContain('3.0 decibels below the best');
});
