// Keeps what goes wrong on the page where a test can read it. In a driven app only: this web view
// reports neither the console nor blocked requests to its driver.
{
  const problems = [];
  Object.defineProperty(window, '__problems', { value: problems });
  const note = (...parts) => problems.push(parts.map(String).join(' '));
  document.addEventListener('securitypolicyviolation', (event) =>
    note('Content-Security-Policy:', event.effectiveDirective, 'blocked', event.blockedURI),
  );
  window.addEventListener('error', (event) => note('exception:', event.message));
  window.addEventListener('unhandledrejection', (event) => note('rejection:', event.reason));
  for (const level of ['error', 'warn']) {
    const write = console[level];
    console[level] = (...parts) => {
      note(`console ${level}:`, ...parts);
      write.apply(console, parts);
    };
  }
}
