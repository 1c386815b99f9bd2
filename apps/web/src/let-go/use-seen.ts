import { type RefObject, useEffect, useState } from "react";

/** Has an element been on the screen yet? */
export function useSeen(ref: RefObject<Element | null>): boolean {
  const [seen, setSeen] = useState(false);
  useEffect(() => {
    if (ref.current === null || seen) return;
    const watch = new IntersectionObserver(([entry]) => entry?.isIntersecting && setSeen(true), {
      rootMargin: "200px",
    });
    watch.observe(ref.current);
    return () => watch.disconnect();
  }, [ref, seen]);
  return seen;
}
