import {
	type NamedInstrument,
	type NamedInstruments,
	namedInstrument,
	noInstruments,
} from '#record/named-instrument.ts';
import type { Store } from './store.ts';

/** Where the instruments lie that the program drives. */
export interface InstrumentDrawer {
	/** Those that were named; an empty place where none was. */
	named(): Promise<NamedInstruments>;
	/** Puts an instrument in the place of the one before. */
	name(which: keyof NamedInstruments, instrument: NamedInstrument): Promise<void>;
	/** The generator whose output was on when the program was last heard of; `null` where it was seen off. */
	leftOn(): Promise<NamedInstrument | null>;
	/** Keeps that a generator's output is about to be on, until it is seen off. */
	markOn(generator: NamedInstrument): Promise<void>;
	seenOff(): Promise<void>;
}

/** The row of the generator whose output is on. */
const onRow = 'left on';

/** The instruments of a store. */
export function instrumentDrawer({ database }: Store): InstrumentDrawer {
	const put = async (which: string, instrument: NamedInstrument): Promise<void> => {
		const about = JSON.stringify(instrument);
		await database
			.insertInto('instrument')
			.values({ which, about })
			.onConflict((conflict) => conflict.column('which').doUpdateSet({ about }))
			.execute();
	};
	return {
		async named() {
			const rows = await database.selectFrom('instrument').selectAll().execute();
			const about = (which: string): NamedInstrument | null => {
				const row = rows.find((one) => one.which === which);
				return row ? namedInstrument.parse(JSON.parse(row.about)) : null;
			};
			return {
				generator: about('generator') ?? noInstruments.generator,
				meter: about('meter') ?? noInstruments.meter,
			};
		},
		name: put,
		async leftOn() {
			const row = await database.selectFrom('instrument').selectAll().where('which', '=', onRow).executeTakeFirst();
			return row ? namedInstrument.parse(JSON.parse(row.about)) : null;
		},
		markOn: (generator) => put(onRow, generator),
		async seenOff() {
			await database.deleteFrom('instrument').where('which', '=', onRow).execute();
		},
	};
}
