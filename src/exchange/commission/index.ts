export { type BuildInput, type BuiltConfiguration, buildConfiguration } from "./build.ts";
export {
  type Answered,
  type Answers,
  type Conversation,
  nextQuestion,
  withoutLastAnswer,
} from "./questions/conversation.ts";
export {
  type Asked,
  type Choice,
  type ChoiceQuestion,
  type NumberQuestion,
  problemOf,
  type RoomAnswer,
  type RoomQuestion,
  rangeWords,
  type SeveralQuestion,
  type TextQuestion,
  type YesNoQuestion,
} from "./questions/question.ts";
export { type ReadAnswer, readAnswer } from "./questions/read-answer.ts";
export type { Known } from "./questions/room-questions.ts";
