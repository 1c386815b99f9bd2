import { type ReactNode, Suspense } from "react";
import { FaultWall } from "./fault-wall.tsx";

interface Props {
  /** The drawings are there: what they did not wait for may come. */
  readonly may: boolean;
  /** What stands here, as "The forms". */
  readonly what: string;
  /** Holds its place until it is there. */
  readonly place: ReactNode;
  /** Loaded on demand. */
  readonly children: ReactNode;
}

/** A part of the page that the first view does not wait for. */
export function ToFollow({ may, what, place, children }: Props) {
  if (!may) return place;
  return (
    <FaultWall what={what}>
      <Suspense fallback={place}>{children}</Suspense>
    </FaultWall>
  );
}
