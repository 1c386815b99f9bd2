import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { boot } from "./state/boot.ts";
import { BenchProvider } from "./state/desk-context.tsx";
import "./styles/base.css";
import "./styles/layout.css";
import "./styles/drawing.css";
import "./styles/ledger.css";
import "./styles/forms.css";
import "./styles/evolution.css";

const root = createRoot(document.getElementById("root") as HTMLElement);
try {
  const bench = await boot();
  root.render(
    <StrictMode>
      <BenchProvider value={bench}>
        <App />
      </BenchProvider>
    </StrictMode>,
  );
} catch (error) {
  root.render(
    <p role="alert" className="fault">
      Gantline could not start ({error instanceof Error ? error.message : String(error)}). The plans on this machine are
      left as they are. Load the page again.
    </p>,
  );
}
