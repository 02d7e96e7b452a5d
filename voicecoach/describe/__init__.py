"""Events, questions and heads in, sentences out."""
