import { type RefObject, useEffect, useState } from "react";

/** The size of an element as it is laid out, pixels; null before it is. */
export function useSize(element: RefObject<Element | null>): { width: number; height: number } | null {
  const [size, setSize] = useState<{ width: number; height: number } | null>(null);
  useEffect(() => {
    if (!element.current) return;
    const observer = new ResizeObserver(([{ contentRect }]) =>
      setSize({ width: contentRect.width, height: contentRect.height }),
    );
    observer.observe(element.current);
    return () => observer.disconnect();
  }, [element]);
  return size;
}
