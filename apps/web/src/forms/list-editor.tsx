import type { ReactNode } from "react";
import { freshId } from "./fresh-id.ts";
import { useList } from "./use-field.ts";

interface Item {
  readonly id?: string;
  readonly name?: string;
}

interface Props<T extends Item> {
  readonly path: string;
  /** What one is called, as "structure". */
  readonly one: string;
  readonly title: string;
  readonly most: number;
  readonly least?: number;
  /** Their order means something: each can be moved up and down. */
  readonly ordered?: boolean;
  readonly make: (id: string, items: readonly T[]) => T;
  readonly heading?: (item: T, index: number) => ReactNode;
  readonly children: (path: string, item: T) => ReactNode;
}

/** A list of parts of the plan, each folded under its name, to add to, copy and remove from. */
export function ListEditor<T extends Item>({
  path,
  one,
  title,
  most,
  least = 0,
  ordered = false,
  make,
  heading,
  children,
}: Props<T>) {
  const { items, change } = useList<T>(path);
  const named = (item: T, index: number): string => item.name ?? `${one} ${index + 1}`;
  const copy = (item: T): T => ({
    ...item,
    ...(item.id === undefined ? {} : { id: freshId(item.id, items) }),
    ...(item.name === undefined ? {} : { name: `${item.name} (copy)`.slice(0, 200) }),
  });
  return (
    <section className="list" data-path={path}>
      <h3>{title}</h3>
      {items.length === 0 && <p className="none">None.</p>}
      {items.map((item, index) => (
        <details key={item.id ?? index} className="list-item" data-path={`${path}[${index}]`}>
          <summary>{heading === undefined ? named(item, index) : heading(item, index)}</summary>
          <div className="list-body">
            {children(`${path}[${index}]`, item)}
            <div className="list-tools">
              {ordered && (
                <>
                  <button
                    type="button"
                    disabled={index === 0}
                    onClick={() => change((all) => swapped(all, index, index - 1))}
                  >
                    Move up
                  </button>
                  <button
                    type="button"
                    disabled={index === items.length - 1}
                    onClick={() => change((all) => swapped(all, index, index + 1))}
                  >
                    Move down
                  </button>
                </>
              )}
              <button
                type="button"
                disabled={items.length >= most}
                onClick={() => change((all) => [...all.slice(0, index + 1), copy(item), ...all.slice(index + 1)])}
              >
                Duplicate
              </button>
              <button
                type="button"
                disabled={items.length <= least}
                onClick={() => change((all) => all.filter((_, at) => at !== index))}
              >
                Remove {named(item, index)}
              </button>
            </div>
          </div>
        </details>
      ))}
      <button
        type="button"
        className="add"
        disabled={items.length >= most}
        onClick={() => change((all) => [...all, make(freshId(one, all), all)])}
      >
        Add a {one}
      </button>
    </section>
  );
}

const swapped = <T,>(all: readonly T[], a: number, b: number): readonly T[] =>
  all.map((one, index) => (index === a ? all[b] : index === b ? all[a] : one) as T);
