import { usePage } from './state/context.ts';

/** What the person should read now. */
export function Messages() {
  const { desk } = usePage();
  return (
    <div role="alert">
      <ul class="messages">
        {[...desk.troubles.value].map(([about, words]) => (
          <li key={about}>{words}</li>
        ))}
      </ul>
    </div>
  );
}
