import { useActions, useDesk } from "../state/desk-context.tsx";

/** What the user is told: a file that could not be opened and why, a plan that was deleted. */
export function NoticeBar() {
  const actions = useActions();
  const notice = useDesk((desk) => desk.notice);
  if (notice === null) return null;
  return (
    <div className={`notice is-${notice.kind}`} role={notice.kind === "problem" ? "alert" : "status"}>
      <p>{notice.title}</p>
      {notice.lines.length > 0 && (
        <ul>
          {notice.lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {notice.remedy !== undefined && (
        <button type="button" className="notice-act" onClick={notice.remedy.run}>
          {notice.remedy.word}
        </button>
      )}
      <button type="button" className="notice-act" onClick={() => actions.tell(null)}>
        Close
      </button>
    </div>
  );
}
