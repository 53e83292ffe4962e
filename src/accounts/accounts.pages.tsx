// The sign-in pages. Props to markup, nothing else.
import { Button } from '../platform/html/kit/button.js';
import { Form, TextField } from '../platform/html/kit/form.js';
import { Page } from '../platform/html/shell.js';
import type { FieldProblem } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';

interface SignInProps {
  studio: Studio;
  formToken: string;
  email?: string;
  problems?: FieldProblem[];
  linkSent?: boolean;
}
