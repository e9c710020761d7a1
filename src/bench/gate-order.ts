import type { Gate } from '#advice/caution.ts';
import { gateFor } from '#advice/gates.ts';
import type { HookUp, SheetStep } from '#advice/sheet-step.ts';
import { type Language, usualLanguage } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { RunState } from './run-state.ts';

/** What a hook-up touches, the same in every language; without one the meter's own leads. */
export const contactOf = (hookUp: HookUp | null): string => hookUp?.contact ?? hookUp?.connection ?? 'meter leads';

const powerUp = 'power-up: ';

/**
 * The gate that stands before a step now, or `null` when the way is free.
 * Hands come first, with the set dead; then power. A step that only looks and marks needs none; a new contact asks for both again.
 */
export function gateBefore(step: SheetStep, state: RunState, facts: SetFacts, language?: Language): Gate | null {
	return step.kind === 'prepare' ? null : gateBeforeContact(contactOf(step.hookUp), state, facts, language);
}

/** The gate that stands before a contact now, or `null` when the way is free. */
export function gateBeforeContact(
	contact: string,
	state: RunState,
	facts: SetFacts,
	language: Language = usualLanguage,
): Gate | null {
	const lastPowered = state.passedGates.findLast((id) => id.startsWith(powerUp))?.slice(powerUp.length);
	if (lastPowered === contact) return null;
	const moment = lastPowered !== undefined ? 'new contact' : state.isResumed ? 'resume' : 'first hook-up';
	const hands = gateFor(moment, facts, contact, language);
	return state.passedGates.at(-1) === hands.id ? gateFor('power-up', facts, contact, language) : hands;
}
