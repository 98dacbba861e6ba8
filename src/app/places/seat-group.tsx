import type { ReactElement } from 'react';
import { defaults } from '../../core/project/limits.ts';
import { bench, useBench } from '../bench.ts';
import { Either } from '../either.tsx';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { exactText } from '../fields/typed-text.ts';
import { getAt, isObject, type JsonObject } from '../state/file-path.ts';
import { type SeatFits, seatLike } from '../state/seat-edits.ts';
import type { RoofAtHand } from './use-roof.ts';

/** A collar under the roof that keeps it in its place on the body. */
export const SeatGroup = ({ hand }: { readonly hand: RoofAtHand }): ReactElement => {
  const stock = useBench((state) => getAt(state.file, ['stock'])) as readonly JsonObject[];
  const seat = hand.typed['seat'];
  const fits = isObject(seat) ? (seat['fits'] === 'outside' ? 'outside' : 'inside') : 'none';
  return (
    <section className="group" aria-label="Seat">
      <h3>Seat</h3>
      <Either
        legend="A collar that keeps the roof in its place"
        choices={[
          { value: 'none', title: 'None', spoken: 'No seat' },
          { value: 'inside', title: 'In the walls', spoken: 'Seat inside the walls' },
          { value: 'outside', title: 'Over them', spoken: 'Seat over the walls' },
        ]}
        value={fits}
        onChoose={(next) =>
          hand.change(seatLike(hand.typed, next as SeatFits | 'none', hand.context.units), {
            refusal: 'This roof cannot sit so.',
          })
        }
      />
      {isObject(seat) && <FieldPanel fields={seatFields(hand, seat, stock)} />}
    </section>
  );
};

const seatFields = (hand: RoofAtHand, seat: JsonObject, stock: readonly JsonObject[]): FieldSpec[] => {
  const path = (key: string) => hand.at('seat', key);
  return [
    ...(seat['walls'] === undefined
      ? []
      : [
          {
            key: 'walls',
            label: 'Walls',
            help: 'How thick the walls of the body are.',
            path: path('walls'),
            quantity: 'length',
          } satisfies FieldSpec,
        ]),
    {
      key: 'play',
      label: 'Play',
      help: 'Left free between collar and wall on each side.',
      path: path('play'),
      quantity: 'length',
      fallback: exactText(defaults.play, 'mm'),
      canLeaveOut: true,
    },
    {
      key: 'height',
      label: 'Height',
      help: 'From where the collar meets the roof lowest down to its foot.',
      path: path('height'),
      quantity: 'length',
      fallback: exactText(defaults.seatHeight, 'mm'),
      canLeaveOut: true,
    },
    {
      key: 'plate',
      label: 'Glued to',
      help: 'The slopes, which its upper edge follows, or a level plate that closes the roof at its eaves.',
      path: path('plate'),
      quantity: 'choice',
      fallback: 'slopes',
      choices: [
        { value: 'slopes', label: 'The slopes' },
        { value: 'plate', label: 'A level plate' },
      ],
      read: (file) => (getAt(file, path('plate')) === true ? 'plate' : 'slopes'),
      write: (value, gesture) => bench.setField(path('plate'), value === 'plate' ? true : undefined, gesture),
    },
    {
      key: 'seatStock',
      label: 'Cut from',
      path: path('stock'),
      read: (file) => {
        const ids = getAt(file, path('stock'));
        return Array.isArray(ids) ? ids[0] : ids;
      },
      quantity: 'choice',
      choices: stock.map((paper) => ({ value: String(paper['id']), label: String(paper['name'] ?? paper['id']) })),
    },
    {
      key: 'seatPieces',
      label: 'Pieces',
      path: path('pieces'),
      quantity: 'choice',
      fallback: 'one-piece',
      choices: [
        { value: 'one-piece', label: 'One folded strip' },
        { value: 'per-panel', label: 'One for each side' },
      ],
    },
  ];
};
