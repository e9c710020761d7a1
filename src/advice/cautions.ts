import { type Language, usualLanguage } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { Caution } from './caution.ts';

const danger = (id: string, words: string): Caution => ({ id, weight: 'danger', words });
const care = (id: string, words: string): Caution => ({ id, weight: 'care', words });

/** Said at the end of every list of cautions. */
const localCodes = ({ say }: Language): Caution =>
	danger(
		'local-codes',
		say`Local codes and licensed practice come first. Where the law asks for a licensed person, have one do this.`,
	);

/**
 * Cautions that apply to the whole set, worst first.
 * Wording: common practice; one hand, nobody alone, discharge: [navedtra-14188] p. 1-14; live chassis and isolation: makers' manuals and restorers' pages, seen.
 */
export function setCautions(facts: SetFacts, language: Language = usualLanguage): readonly Caution[] {
	const { say } = language;
	const { card } = facts;
	const list: Caution[] = [];
	if (facts.liveChassis) {
		list.push(
			danger(
				'live-chassis',
				`${card.supply === 'unknown' ? `${say`The supply is unknown: take it for a live-chassis set.`} ` : ''}${say`Chassis and common may be joined to the mains whichever way the plug goes in. Feed this set alone from an isolation transformer. A variable autotransformer does not isolate.`}`,
			),
			danger(
				'residual-current',
				say`A residual-current device does not protect what is behind the isolation transformer.`,
			),
			danger('no-blocking-capacitor', say`A capacitor in a lead is not isolation.`),
		);
		if (facts.common !== 'chassis') {
			list.push(
				danger(
					'b-minus',
					say`B-minus is not the chassis in this set, or it is not known. Connect to the true return, and only behind isolation.`,
				),
			);
		}
	}
	if (card.supply !== 'battery') {
		list.push(
			danger(
				'discharge',
				say`Before a hand goes in: set unplugged, capacitors discharged and proved dead with a meter. They may hold their charge.`,
			),
			danger('one-hand', say`One hand where practical. Never alone: someone near who can switch off and help.`),
		);
	} else if (facts.antenna === 'car') {
		list.push(
			danger(
				'discharge',
				say`A vibrator makes full B-plus from the car battery. Before a hand goes in: set switched off and disconnected, capacitors discharged and proved dead with a meter.`,
			),
			danger('one-hand', say`One hand where practical. Never alone: someone near who can switch off and help.`),
		);
	} else {
		list.push(
			danger(
				'discharge',
				say`A B battery can hurt: take its lead off before a hand goes in, and prove the set dead with a meter.`,
			),
		);
	}
	list.push(
		danger(
			'leads',
			say`Clip and move leads only with the set unplugged, discharged and proved dead. Then power up, hands off.`,
		),
		care('sick-set', say`A sick set is not aligned. Repair comes first.`),
		localCodes(language),
	);
	return list;
}

/** Cautions for turning these adjusters. */
export function adjusterCautions(
	facts: SetFacts,
	ids: readonly string[],
	{ say, term }: Language = usualLanguage,
): readonly Caution[] {
	const adjusters = facts.adjusters.filter(({ id }) => ids.includes(id));
	const list: Caution[] = [];
	const hot = adjusters.filter(
		({ highVoltage, stage, kind }) =>
			highVoltage === 'yes' || (highVoltage !== 'no' && stage === 'IF' && kind === 'compression trimmer'),
	);
	const names = hot.map(({ name }) => name).join(', ');
	if (hot.length > 0 && (facts.card.supply !== 'battery' || facts.antenna === 'car')) {
		list.push(
			danger(
				'screw-voltage',
				hot.some(({ highVoltage }) => highVoltage !== 'yes')
					? say`${names}: the screw may carry full B-plus. Insulated driver, bare only at the tip.`
					: say`${names}: the screw carries full B-plus. Insulated driver, bare only at the tip.`,
			),
		);
	}
	if (adjusters.some(({ kind }) => kind === 'slug')) {
		list.push(
			care(
				'core',
				say`Use only the tool that fits the core. Stop at the first resistance. Never screw a core inward in search of a peak.`,
			),
		);
	}
	const skipped = adjusters.filter(
		({ condition }) => condition !== undefined && condition !== 'free' && condition !== 'unknown',
	);
	for (const { name, condition } of skipped)
		list.push(care(`leave-${name}`, say`${name} is ${term(condition ?? '')}: leave it as it is.`));
	return list;
}

/** The caution for hearing the set with an earthed instrument: what a sound card may touch, and what needs no contact. */
export function soundCardCaution(facts: SetFacts, { say }: Language = usualLanguage): Caution {
	return danger(
		'sound-card',
		facts.liveChassis
			? say`A sound card goes to the voice coil only, through an insulated audio transformer with divider and clamp, under 1 V, and only behind the isolation transformer. A microphone needs no contact.`
			: say`A sound card goes to the voice coil only, through an insulated audio transformer with divider and clamp, under 1 V. A microphone needs no contact.`,
	);
}

/** The caution for joining generator and set anew. */
export function hookUpCaution(facts: SetFacts, { say }: Language = usualLanguage): Caution {
	const joined =
		facts.card.supply === 'battery'
			? say`New hook-up: clip it with the set disconnected, discharged and proved dead; then power up, hands off.`
			: say`New hook-up: clip it with the set unplugged, discharged and proved dead; then power up, hands off.`;
	return danger(
		'hook-up',
		facts.liveChassis
			? `${joined} ${say`The generator earths the common of the set: only behind the isolation transformer.`}`
			: joined,
	);
}
