import { type ReactElement, useMemo, useState } from 'react';
import { makeGuide } from '../../core/guide/guide.ts';
import type { GuideBlock, GuidePicture, GuideSection, GuideStep } from '../../core/guide/guide-data.ts';
import { drawMoment } from '../../core/guide/moments.ts';
import { sheetPicture } from '../../core/guide/sheet-picture.ts';
import type { Production } from '../../core/pipeline.ts';
import { LineFigure } from './line-figure.tsx';
import { readTicks, writeTicks } from './ticks.ts';
import { unbroken } from './unbroken.ts';
import '../styles/guide.css';

interface Ticks {
  readonly done: ReadonlySet<string>;
  readonly toggle: (id: string) => void;
}

/** The guide on screen: sections that open, steps with boxes to tick. `chosen`: id of the roof whose steps are open at first. */
export const GuideSections = ({
  production,
  chosen,
}: {
  readonly production: Production;
  readonly chosen: string | null;
}): ReactElement => {
  const guide = useMemo(() => makeGuide(production), [production]);
  const [done, setDone] = useState(() => readTicks(guide.title));
  const toggle = (id: string): void => {
    const next = new Set(done);
    if (!next.delete(id)) next.add(id);
    writeTicks(guide.title, next);
    setDone(next);
  };
  return (
    <div className="guide">
      {guide.sections.map((section) => (
        <Section
          key={section.id}
          section={section}
          production={production}
          ticks={{ done, toggle }}
          isOpen={section.id === `roof-${chosen}`}
        />
      ))}
      <p className="note">Ticks are kept in this browser.</p>
      {done.size > 0 && (
        <button
          type="button"
          className="link"
          onClick={() => {
            writeTicks(guide.title, new Set());
            setDone(new Set());
          }}
        >
          Take all ticks away
        </button>
      )}
    </div>
  );
};

interface Showing {
  readonly production: Production;
  readonly ticks: Ticks;
}

/** Its pictures are drawn once it is opened. */
const Section = ({
  section: { title, blocks },
  isOpen,
  ...showing
}: Showing & { readonly section: GuideSection; readonly isOpen: boolean }): ReactElement => {
  const [open, setOpen] = useState(isOpen);
  const steps = blocks.flatMap((block) => (block.kind === 'step' ? [block.step.id] : []));
  const done = steps.filter((id) => showing.ticks.done.has(id)).length;
  return (
    <details open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h4>{title}</h4>
        {steps.length > 0 && (
          <small>
            {done} of {steps.length} done
          </small>
        )}
      </summary>
      {open && groupsOf(blocks).map((group) => <Group key={group.key} blocks={group.blocks} {...showing} />)}
    </details>
  );
};

/** Steps in a row make one list, every other block stands by itself. */
function groupsOf(
  blocks: readonly GuideBlock[],
): readonly { readonly key: string; readonly blocks: readonly GuideBlock[] }[] {
  const groups: { key: string; blocks: GuideBlock[] }[] = [];
  blocks.forEach((block, i) => {
    const last = groups.at(-1);
    if (block.kind === 'step' && last?.blocks[0]?.kind === 'step') last.blocks.push(block);
    else groups.push({ key: `${block.kind}-${i}`, blocks: [block] });
  });
  return groups;
}

const Group = ({ blocks, ...showing }: Showing & { readonly blocks: readonly GuideBlock[] }): ReactElement | null => {
  const [first] = blocks;
  if (first === undefined) return null;
  if (first.kind !== 'step') return <Block block={first} production={showing.production} />;
  return (
    <ol className="guide-steps">
      {blocks.map((block) => block.kind === 'step' && <Step key={block.step.id} step={block.step} {...showing} />)}
    </ol>
  );
};

const Step = ({
  step: { id, sentences, check, picture },
  production,
  ticks: { done, toggle },
}: Showing & { readonly step: GuideStep }): ReactElement => (
  <li className={done.has(id) ? 'is-done' : ''}>
    <label>
      <input type="checkbox" checked={done.has(id)} onChange={() => toggle(id)} />
      <span>
        {sentences.map((sentence) => (
          <span key={sentence} className="sentence">
            {unbroken(sentence)}{' '}
          </span>
        ))}
      </span>
    </label>
    {check !== undefined && (
      <p className="check">
        <b>Check:</b> {unbroken(check)}
      </p>
    )}
    {picture !== undefined && <MomentFigure production={production} picture={picture} />}
  </li>
);

const MomentFigure = ({
  production,
  picture: { moment, alt },
}: {
  readonly production: Production;
  readonly picture: GuidePicture;
}): ReactElement => {
  const drawn = useMemo(() => drawMoment(production, moment), [production, moment]);
  return <LineFigure picture={drawn} alt={alt} />;
};

const Block = ({
  block,
  production,
}: {
  readonly block: GuideBlock;
  readonly production: Production;
}): ReactElement | null => {
  if (block.kind === 'heading') return <h5>{block.text}</h5>;
  if (block.kind === 'words') return <p>{block.text}</p>;
  if (block.kind === 'caution')
    return (
      <p className="caution">
        <b>{block.about}:</b> {block.text}
      </p>
    );
  if (block.kind === 'items')
    return (
      <ul>
        {block.items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ul>
    );
  if (block.kind === 'terms')
    return (
      <dl className="terms">
        {block.terms.map(([term, meaning]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{meaning}</dd>
          </div>
        ))}
      </dl>
    );
  if (block.kind === 'table') return <Table head={block.head} rows={block.rows} />;
  if (block.kind === 'picture')
    return (
      <figure>
        <MomentFigure production={production} picture={block.picture} />
        <figcaption>{unbroken(block.caption)}</figcaption>
      </figure>
    );
  return block.kind === 'sheet' ? <SheetFigure block={block} production={production} /> : null;
};

const Table = ({
  head,
  rows,
}: {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}): ReactElement => (
  <table>
    <thead>
      <tr>
        {head.map((cell) => (
          <th key={cell} scope="col">
            {cell}
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {rows.map((row) => (
        <tr key={row.join(' ')}>
          {row.map((cell, c) => (
            <td key={head[c]}>{unbroken(cell)}</td>
          ))}
        </tr>
      ))}
    </tbody>
  </table>
);

const SheetFigure = ({
  block: { sheet, keys, caption, alt },
  production,
}: {
  readonly block: Extract<GuideBlock, { kind: 'sheet' }>;
  readonly production: Production;
}): ReactElement | null => {
  const laid = production.sheets[sheet];
  if (laid === undefined) return null;
  const picture = sheetPicture(production, laid);
  return (
    <figure>
      <LineFigure picture={picture} alt={alt} numbers={picture.spots.map((at, i) => ({ text: keys[i] ?? '', at }))} />
      <figcaption>{unbroken(caption)}</figcaption>
    </figure>
  );
};
