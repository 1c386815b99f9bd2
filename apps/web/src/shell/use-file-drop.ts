import { useEffect } from "react";
import { useBench } from "../state/desk-context.tsx";

/** A plan file let go anywhere over the page is opened. */
export function useFileDrop(): void {
  const { shelf } = useBench();
  useEffect(() => {
    const holdsFile = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;
    const onDragOver = (event: DragEvent) => {
      if (holdsFile(event)) event.preventDefault();
    };
    const onDrop = (event: DragEvent) => {
      const [file] = event.dataTransfer?.files ?? [];
      if (file === undefined) return;
      event.preventDefault();
      void shelf.openFile(file);
    };
    addEventListener("dragover", onDragOver);
    addEventListener("drop", onDrop);
    return () => {
      removeEventListener("dragover", onDragOver);
      removeEventListener("drop", onDrop);
    };
  }, [shelf]);
}
