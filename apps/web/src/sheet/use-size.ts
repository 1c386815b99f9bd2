import { type RefObject, useLayoutEffect, useState } from "react";

export interface Size {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** How large an element is, whole pixels; null before it is known. */
export function useSize(ref: RefObject<HTMLElement | null>): Size | null {
  const [size, setSize] = useState<Size | null>(null);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const measure = () => {
      const widthPx = Math.floor(element.clientWidth);
      const heightPx = Math.floor(element.clientHeight);
      if (widthPx > 0 && heightPx > 0)
        setSize((old) => (old?.widthPx === widthPx && old.heightPx === heightPx ? old : { widthPx, heightPx }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
}
