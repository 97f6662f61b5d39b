import { usePage } from './state/context.ts';

/** What the person should read now. */
export function Messages() {
  const { desk } = usePage();
  return (
    <ul class="messages" role="alert">
      {[...desk.troubles.value].map(([about, words]) => (
        <li key={about}>{words}</li>
      ))}
    </ul>
  );
}
