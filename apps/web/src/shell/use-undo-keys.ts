import { useEffect } from "react";
import { useActions } from "../state/desk-context.tsx";

/** Ctrl+Z and Ctrl+Shift+Z (⌘ on a Mac), and Ctrl+Y. In a field that is being written in they are the field's own. */
export function useUndoKeys(): void {
  const actions = useActions();
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || isWriting(event.target)) return;
      const key = event.key.toLowerCase();
      if (key !== "z" && key !== "y") return;
      event.preventDefault();
      if (key === "y" || event.shiftKey) actions.redo();
      else actions.undo();
    };
    addEventListener("keydown", onKeyDown);
    return () => removeEventListener("keydown", onKeyDown);
  }, [actions]);
}

const isWriting = (target: EventTarget | null): boolean =>
  target instanceof HTMLTextAreaElement ||
  (target instanceof HTMLInputElement && target.type === "text" && target.value !== target.defaultValue);
