import type { Gate } from '#advice/caution.ts';

/** Answers to a gate as a person types them: `yes` for a confirmation, what the meter said for a measurement. */
export async function gateAnswers(
	gate: Gate,
	ask: (question: string) => Promise<string>,
	say: (line: string) => void,
): Promise<Readonly<Record<string, string>>> {
	say(gate.title);
	for (const { words } of gate.cautions) say(`  ${words}`);
	const answers: Record<string, string> = {};
	for (const { id, words } of gate.confirmations)
		answers[id] = (await ask(`${words} (yes or no) `)).trim().toLowerCase();
	for (const { id, words } of gate.measurements) answers[id] = (await ask(`${words}, with its unit: `)).trim();
	return answers;
}
