import { expect, test } from 'vitest';
import type { Adjuster, SetCard } from '#record/set-card.ts';
import type { SetFacts } from '#record/set-facts.ts';
import { exampleCard, factsOf, sheetOf } from '../../test/example-set.ts';
import { makeSheet } from './sheet.ts';
import { usualOptions } from './sheet-options.ts';
import type { Sheet, SheetOptions } from './sheet-step.ts';

// The rules checked here are common practice of the trade and the program's own rules of safety.

const factsWith = (change: Partial<SetCard>): SetFacts => factsOf({ ...exampleCard(), ...change });
const sheetWith = (change: Partial<SetCard> = {}, options: Partial<SheetOptions> = {}): Sheet =>
	sheetOf(factsWith(change), { ...usualOptions, ...options });

const ids = (sheet: Sheet) => sheet.steps.map(({ id }) => id);
const step = (sheet: Sheet, id: string) => sheet.steps.find((candidate) => candidate.id === id);
const demoAdjusters = factsWith({}).adjusters;
const without = (...left: string[]) => demoAdjusters.filter(({ id }) => !left.includes(id));

test('the last IF transformer comes first and the antenna trimmer ends each round', () => {
	const sheet = sheetWith();
	expect(ids(sheet)).toEqual([
		'triage',
		'marking',
		'preparation',
		'if',
		'wave-trap',
		'broadcast-oscillator-high',
		'broadcast-antenna-high',
		'broadcast-low',
		'proof',
	]);
	expect(step(sheet, 'if')?.adjusters).toEqual(['if2-secondary', 'if2-primary', 'if1-secondary', 'if1-primary']);
	expect(step(sheet, 'wave-trap')?.aim).toBe('minimum');
	expect(step(sheet, 'wave-trap')?.generator?.levelRule).toContain('As strong as');
	expect(step(sheet, 'broadcast-low')?.repeat.at(-1)).toBe('broadcast-antenna-high');
});

test('a strip that was meant wide is judged by both its sides, and a staggered one is not peaked', () => {
	const overcoupled = sheetWith({ ifCurve: 'overcoupled' });
	expect(ids(overcoupled).slice(3, 5)).toEqual(['if', 'if-shape']);
	expect(step(overcoupled, 'if')?.remarks.join(' ')).toContain('its partner is damped');
	expect(step(overcoupled, 'if-shape')).toMatchObject({
		aim: 'symmetry',
		adjusters: step(overcoupled, 'if')?.adjusters,
	});
	expect(step(overcoupled, 'if-shape')?.generator?.words).toContain('450 kc, 455 kc, 460 kc');
	const staggered = sheetWith({ ifCurve: 'staggered' });
	expect(ids(staggered).slice(3, 5)).toEqual(['if', 'wave-trap']);
	expect(step(staggered, 'if')?.aim).toBe('symmetry');
	expect(step(staggered, 'if')?.remarks.join(' ')).toContain('maker');
	expect(step(staggered, 'proof')).toBeDefined();
	const switched = sheetWith({ ifCurve: 'selectivity switch' });
	expect(step(switched, 'if')?.instructions[0]).toContain('narrowest');
	expect(step(switched, 'if-shape')?.instructions[0]).toContain('broadest');
	expect(ids(sheetWith({ ifCurve: 'single peak' }))).toEqual(ids(sheetWith()));
});

test('a live chassis asks for isolation, and a set of unknown supply counts as one', () => {
	for (const supply of ['ac-dc', 'unknown'] as const) {
		expect(sheetWith({ supply }).cautions.map(({ id }) => id)).toContain('live-chassis');
	}
	expect(sheetWith({ supply: 'transformer' }).cautions.map(({ id }) => id)).not.toContain('live-chassis');
});

test('every list of cautions ends with local codes and licensed practice', () => {
	for (const supply of ['ac-dc', 'transformer', 'battery', 'unknown'] as const) {
		expect(sheetWith({ supply }).cautions.at(-1)?.id).toBe('local-codes');
	}
});

test('the ground lead goes to B-minus where that is not the chassis', () => {
	expect(step(sheetWith(), 'if')?.hookUp?.ground).toMatch(/^B-minus/);
	expect(step(sheetWith({ common: 'unknown' }), 'if')?.hookUp?.ground).toMatch(/trace B-minus/);
	expect(step(sheetWith({ supply: 'transformer', common: 'chassis' }), 'if')?.hookUp?.ground).toBe('chassis');
});

test('a trimmer screw of an IF can that may carry B-plus is named with its caution', () => {
	expect(step(sheetWith(), 'if')?.cautions.find(({ id }) => id === 'screw-voltage')?.words).toContain('T2 pri.');
});

test('a step that is heard says what a sound card may touch', () => {
	const words = step(sheetWith(), 'if')?.cautions.find(({ id }) => id === 'sound-card')?.words;
	expect(words).toContain('voice coil only');
	expect(words).toContain('behind the isolation transformer');
	expect(step(sheetWith({}, { meter: 'AC volts' }), 'if')?.cautions.map(({ id }) => id)).not.toContain('sound-card');
});

test('a low end by slug comes first and the round ends at the high end', () => {
	const slug: Adjuster = {
		id: 'oscillator-slug',
		name: 'L2',
		stage: 'oscillator',
		end: 'low',
		kind: 'slug',
		bands: ['broadcast'],
	};
	const adjusters = [...without('padder'), slug];
	const bands = [{ id: 'broadcast', name: 'broadcast', low: '540 kc', high: '1620 kc' }];
	const order = ids(sheetWith({ adjusters, bands })).filter((id) => id.startsWith('broadcast'));
	expect(order).toEqual(['broadcast-low', 'broadcast-oscillator-high', 'broadcast-antenna-high']);
});

test('stuck, sealed and broken adjusters are passed over and said', () => {
	const adjusters = demoAdjusters.map((adjuster) =>
		adjuster.id === 'if1-primary' ? { ...adjuster, condition: 'stuck' as const } : adjuster,
	);
	const sheet = sheetWith({ adjusters });
	expect(step(sheet, 'if')?.adjusters).not.toContain('if1-primary');
	expect(step(sheet, 'marking')?.remarks).toContain('T1 pri. is stuck and will be passed over.');
});

test('an unknown IF is found before anything is aligned, and is never taken for 455', () => {
	const { ifDesigned: _, ...rest } = exampleCard();
	const sheet = sheetOf(factsOf(rest));
	expect(ids(sheet)).toEqual(['triage', 'marking', 'preparation', 'find-if']);
	expect(JSON.stringify(sheet)).not.toMatch(/45[0-9] kc/);
});

test('a loop set is coupled through the air and never clipped', () => {
	const hookUp = step(sheetWith({ antenna: 'loop' }), 'broadcast-antenna-high')?.hookUp;
	expect(hookUp?.connection).toBe('loop');
	expect(hookUp?.ground).toBe('none');
});

test('the sheet follows the gear at hand', () => {
	expect(step(sheetWith({}, { generator: 'unmodulated' }), 'if')?.indicator?.quantity).toBe('AVC volts');
	expect(step(sheetWith({}, { generator: 'unmodulated' }), 'if')?.generator?.depth).toBe(0);
	const stations = sheetWith({}, { generator: 'none' });
	expect(ids(stations)).not.toContain('if');
	expect(step(stations, 'broadcast-oscillator-high')?.remarks.join()).toContain('station of known frequency');
	expect(step(sheetWith({}, { attenuator: 'coarse' }), 'if')?.generator?.levelRule).toContain('6 and 20 dB pad');
	expect(sheetWith({}, { attenuator: 'coarse' }).pad?.sections.map(({ nominalDb }) => nominalDb)).toEqual([6, 20]);
	expect(sheetWith({}, { attenuator: 'coarse', generator: 'none' }).pad).toBeNull();
	expect(sheetWith().pad).toBeNull();
});

test('both schools of the low end are offered and each names the price of the other', () => {
	expect(step(sheetWith({}, { lowEndSchool: 'greatest output' }), 'broadcast-low')?.rock).toBe(true);
	expect(step(sheetWith(), 'broadcast-low')?.rock).toBe(false);
	expect(step(sheetWith(), 'broadcast-low')?.remarks.join()).toContain('other school');
});

test('bands that wait for another come after it; a trimmer of two bands is set on the first and only checked on the second', () => {
	const bands = [
		{ id: 'short', name: 'short wave', low: '6 Mc', high: '18 Mc', after: ['broadcast'] },
		{ id: 'broadcast', name: 'broadcast', low: '540 kc', high: '1600 kc' },
	];
	const adjusters = demoAdjusters.map((adjuster) =>
		adjuster.id === 'antenna-trimmer' ? { ...adjuster, bands: ['broadcast', 'short'] } : adjuster,
	);
	const sheet = sheetWith({ bands, adjusters });
	expect(ids(sheet).indexOf('broadcast-low')).toBeLessThan(ids(sheet).indexOf('short-antenna-high'));
	expect(step(sheet, 'broadcast-antenna-high')?.adjusters).toEqual(['antenna-trimmer']);
	expect(step(sheet, 'broadcast-antenna-high')?.remarks.join()).toContain('serves short wave too');
	expect(step(sheet, 'short-antenna-high')?.kind).toBe('measure');
	expect(step(sheet, 'short-antenna-high')?.adjusters).toEqual([]);
	expect(step(sheet, 'short-antenna-high')?.remarks.join()).toContain('was set on broadcast: do not turn it here');
	expect(step(sheet, 'short-antenna-high')?.hookUp?.dummy).toBe('400 ohms in series');
	expect(ids(sheet).filter((id) => id.startsWith('proof'))).toEqual(['proof', 'proof-short']);
});

test('the demo set of two bands begins its low end with the core and ends each band at the high end', () => {
	const sheet = sheetOf(factsOf(exampleCard('larkwater-lw-238')), { ...usualOptions, meter: 'AVC volts' });
	expect(ids(sheet)).toEqual([
		'triage',
		'marking',
		'preparation',
		'if',
		'broadcast-low',
		'broadcast-oscillator-high',
		'broadcast-antenna-high',
		'short-wave-oscillator-high',
		'short-wave-antenna-high',
		'short-wave-low',
		'proof',
		'proof-short-wave',
	]);
	expect(step(sheet, 'if')?.adjusters).not.toContain('if1-secondary'); // sealed
	expect(step(sheet, 'if')?.hookUp?.point).toBe('grid cap of the 6A8 converter, its clip left on');
	// Delayed AVC shows nothing of a weak signal: the detector is read instead.
	expect(step(sheet, 'if')?.indicator?.quantity).toBe('DC volts');
	expect(step(sheet, 'short-wave-oscillator-high')?.remarks.join()).toContain('image lies two IFs away');
});

test('what was found stands in for what was designed only where nothing else is known, and that is said', () => {
	const { ifDesigned: _, ...rest } = exampleCard();
	const facts = factsOf({ ...rest, ifFound: [{ frequency: '459 kc' }] });
	expect(facts.ifHz).toBe(459e3);
	expect(facts.assumptions.find(({ what }) => what === 'IF')?.assumed).toContain('459 kc');
	expect(factsWith({ ifFound: [{ frequency: '459 kc' }] }).ifHz).toBe(455e3);
});

test('a generator without contact has no ground lead and no caution of a new hook-up', () => {
	const sheet = sheetWith({}, { coupling: 'loose' });
	for (const { hookUp, cautions } of sheet.steps) {
		if (!hookUp) continue;
		expect(hookUp.connection).toBe('loose coupling');
		expect(hookUp.ground).toBe('none');
		expect(cautions.map(({ id }) => id)).not.toContain('hook-up');
	}
	expect(step(sheetWith(), 'if')?.cautions.find(({ id }) => id === 'hook-up')?.words).toContain(
		'isolation transformer',
	);
});

test('a new hook-up is cautioned once, where the leads are moved', () => {
	const hooked = sheetWith().steps.filter(({ cautions }) => cautions.some(({ id }) => id === 'hook-up'));
	expect(hooked.map(({ id }) => id)).toEqual(['if', 'wave-trap']);
});

test('the trap is set at the end of the dial that lies nearest the IF', () => {
	const trap = step(sheetWith(), 'wave-trap')?.dial;
	expect(trap?.kind).toBe('closed');
	const longWave = [{ id: 'long', name: 'long wave', low: '150 kc', high: '300 kc' }];
	const adjusters = demoAdjusters.map(({ bands: _, ...adjuster }) => adjuster);
	expect(step(sheetWith({ bands: longWave, adjusters }), 'wave-trap')?.dial?.kind).toBe('open');
});

test('a set without AVC is read at the detector when there is no tone', () => {
	const read = step(sheetWith({ avc: 'none' }, { generator: 'unmodulated' }), 'if')?.indicator;
	expect(read?.quantity).toBe('DC volts');
	expect(read?.where).toContain('detector load');
	// A station's programme is no steady tone.
	expect(step(sheetWith({}, { generator: 'none' }), 'broadcast-antenna-high')?.indicator?.quantity).toBe('AVC volts');
});

test('each step with a generator names its dummy and why, its ground and its level rule', () => {
	for (const change of [{}, { antenna: 'loop' }, { antenna: 'car', supply: 'battery' }] as const) {
		for (const { hookUp, generator } of sheetWith(change).steps) {
			if (!hookUp || !generator) continue;
			expect(hookUp.dummy).not.toBe('');
			expect(hookUp.why.length).toBeGreaterThan(20);
			expect(hookUp.ground).not.toBe('');
			expect(generator.levelRule).toMatch(/^As (weak|strong) as/);
		}
	}
});

test('kinds of set that no sheet is made for are refused in a plain sentence', () => {
	for (const change of [{ circuit: 'TRF' }, { active: 'transistors' }, { tuning: 'permeability' }] as const) {
		const sheet = makeSheet(factsWith(change), usualOptions);
		expect(sheet.ok).toBe(false);
		if (!sheet.ok) expect(sheet.words).toMatch(/^no sheet is made for /);
	}
});

test('no step asks to pull a tube or to probe a circuit that is being set', () => {
	expect(JSON.stringify(sheetWith())).not.toMatch(/pull|probe/i);
});

test('British words are the trade\u2019s own and leave the adjusters\u2019 ids alone', () => {
	const sheet = sheetWith({}, { words: 'UK' });
	expect(step(sheet, 'broadcast-antenna-high')?.title).toBe('Aerial, high end of broadcast');
	expect(step(sheet, 'if')?.title).toContain('455 kc/s');
	expect(step(sheet, 'if')?.adjusters).toContain('if2-secondary');
});
