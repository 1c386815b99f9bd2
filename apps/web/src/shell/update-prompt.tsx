import { registerSW } from "virtual:pwa-register";
import { useEffect, useState } from "react";

/** Keeps the app on this machine for use without a network; a newer build waits until it is asked for. */
export function UpdatePrompt() {
  const [update, setUpdate] = useState<(() => void) | null>(null);
  useEffect(() => {
    const apply = registerSW({ onNeedRefresh: () => setUpdate(() => () => void apply(true)) });
  }, []);
  if (update === null) return null;
  return (
    <p className="update" role="status">
      A newer version is ready.{" "}
      <button type="button" onClick={update}>
        Change to it now
      </button>
    </p>
  );
}
