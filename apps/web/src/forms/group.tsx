import type { ReactNode } from "react";

/** Fields that belong together, under a heading. */
export function Group({
  title,
  children,
  path,
}: {
  readonly title: string;
  readonly children: ReactNode;
  readonly path?: string;
}) {
  return (
    <section className="group" data-path={path}>
      <h3>{title}</h3>
      <div className="group-fields">{children}</div>
    </section>
  );
}

/** Fields seldom needed, folded away. */
export function Fold({
  title,
  children,
  path,
}: {
  readonly title: string;
  readonly children: ReactNode;
  readonly path?: string;
}) {
  return (
    <details className="fold" data-path={path}>
      <summary>{title}</summary>
      <div className="fold-body">{children}</div>
    </details>
  );
}
