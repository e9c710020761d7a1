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
}

/** The instruments of a store. */
export function instrumentDrawer({ database }: Store): InstrumentDrawer {
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
		async name(which, instrument) {
			const about = JSON.stringify(instrument);
			await database
				.insertInto('instrument')
				.values({ which, about })
				.onConflict((conflict) => conflict.column('which').doUpdateSet({ about }))
				.execute();
		},
	};
}
