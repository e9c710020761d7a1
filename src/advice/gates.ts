import { type Language, usualLanguage } from '#record/language.ts';
import { parseQuantity } from '#record/quantity.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { Gate, GateMeasurement, GateMoment, GateVerdict } from './caution.ts';
import { setCautions } from './cautions.ts';

/**
 * Above this between the set's common or chassis and earth the work does not go on without isolation, volts.
 * Chosen: well below the 50 V AC commonly named as the limit of touch voltage, above what a digital meter picks up from stray fields.
 */
export const mostTouchV = 5;
/** Filter capacitors are taken for dead below this; chosen: no shock and no spark is felt. */
const mostRestV = 5;

const titles = ({ say }: Language): Readonly<Record<GateMoment, string>> => ({
	'first hook-up': say`Before the first hook-up`,
	'power-up': say`Before power`,
	resume: say`Before you go on`,
	'new contact': say`Before this new contact`,
});

function liveChassisMeasurements({ say }: Language): readonly GateMeasurement[] {
	const points = { chassis: say`the chassis`, common: say`the common (B-minus)` };
	const plugs = { 'as it is': say`as it is`, 'turned round': say`turned round` };
	const powers = { on: say`on`, off: say`off` };
	return Object.entries(points).flatMap(([point, from]) =>
		Object.entries(plugs).flatMap(([plug, stands]) =>
			Object.entries(powers).map(([power, set]) => ({
				id: `${point}-${plug.replaceAll(' ', '-')}-${power}`,
				words: say`AC volts from ${from} to earth, plug ${stands}, set ${set}`,
				quantity: 'AC volts' as const,
				limitV: mostTouchV,
				otherwise: say`feed the set through an isolation transformer and measure again`,
			})),
		),
	);
}

/**
 * The gate that stands before this moment of the work: cautions, confirmations and, before the first contact with a set that may be live and after a pause, meter readings.
 * @param contact what is going to be touched; each contact has its own gate
 */
export function gateFor(
	moment: GateMoment,
	facts: SetFacts,
	contact: string,
	language: Language = usualLanguage,
): Gate {
	const { say } = language;
	const mains = facts.card.supply !== 'battery';
	const hands = moment !== 'power-up';
	const fromRest = moment === 'first hook-up' || moment === 'resume';
	const confirmations = [
		...(facts.liveChassis
			? [{ id: 'isolated', words: say`An isolation transformer feeds this set and nothing else.` }]
			: []),
		...(hands
			? [{ id: 'unplugged', words: mains ? say`The set is unplugged.` : say`The batteries are disconnected.` }]
			: []),
		...(moment === 'power-up'
			? [
					{ id: 'clear', words: say`Leads are clipped, nothing touches that should not, hands are off.` },
					{ id: 'load', words: say`The speaker or a load is connected.` },
				]
			: []),
		{ id: 'not-alone', words: say`Somebody is near who can switch off and help.` },
		...(moment === 'resume'
			? [{ id: 'same', words: say`Nothing was moved or changed since, or the change is noted.` }]
			: []),
	];
	const dead: readonly GateMeasurement[] = hands
		? [
				{
					id: 'dead',
					words: say`DC volts across the filter capacitors, set unplugged`,
					quantity: 'DC volts',
					limitV: mostRestV,
					otherwise: say`discharge them through a resistor and measure again`,
				},
			]
		: [];
	return {
		id: `${moment}: ${contact}`,
		moment,
		title: titles(language)[moment],
		cautions: setCautions(facts, language),
		confirmations,
		// With the set on its capacitors charge: they are proved dead last.
		measurements: [...(fromRest && facts.liveChassis ? liveChassisMeasurements(language) : []), ...dead],
	};
}

/**
 * Whether the gate opens on these answers: every confirmation `yes`, every measurement a voltage within its limit. What is missing is named.
 * @param answers by id of confirmation or measurement, as typed
 */
export function judgeGate(gate: Gate, answers: Readonly<Record<string, string>>): GateVerdict {
	const unconfirmed = gate.confirmations.filter(({ id }) => answers[id] !== 'yes');
	const unmeasured = gate.measurements.flatMap(({ id, words, limitV, otherwise }) => {
		const parsed = parseQuantity('voltage', answers[id] ?? '');
		if (!parsed.ok)
			return [{ id, words: `${words}: ${answers[id] ? parsed.words : 'measure and type what the meter said'}` }];
		return Math.abs(parsed.value) <= limitV
			? []
			: [{ id, words: `${answers[id]} is above ${limitV} V: ${otherwise}.` }];
	});
	const missing = [...unconfirmed.map(({ id, words }) => ({ id, words: `To be confirmed: ${words}` })), ...unmeasured];
	return missing.length === 0 ? { kind: 'open' } : { kind: 'closed', missing };
}
