/** A caution that applies to this set at this moment. `weight`: `danger` can hurt a person, `care` can hurt the set or spoil a reading. */
export interface Caution {
	readonly id: string;
	readonly weight: 'danger' | 'care';
	readonly words: string;
}

/** The moments at which the person is asked before going on. */
export type GateMoment = 'first hook-up' | 'power-up' | 'resume' | 'new contact';

/** A reading that has to be taken before the gate opens. */
export interface GateMeasurement {
	readonly id: string;
	readonly words: string;
	readonly quantity: 'AC volts' | 'DC volts';
	/** Above this the work does not go on without what `otherwise` says. */
	readonly limitV: number;
	readonly otherwise: string;
}

/** Questions to be answered before a hand goes near the set: plain confirmations and meter readings. */
export interface Gate {
	readonly id: string;
	readonly moment: GateMoment;
	readonly title: string;
	readonly cautions: readonly Caution[];
	readonly confirmations: readonly { readonly id: string; readonly words: string }[];
	readonly measurements: readonly GateMeasurement[];
}

/** Whether a gate opens, and what is missing when it does not. */
export type GateVerdict =
	| { readonly kind: 'open' }
	| { readonly kind: 'closed'; readonly missing: readonly { readonly id: string; readonly words: string }[] };
