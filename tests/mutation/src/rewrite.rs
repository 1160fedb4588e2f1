//! One source file with all its mutants in it, each behind its switch.
//!
//! No operand is written twice where it could be evaluated twice. `match` holds operands, as its temporaries live as long
//! as those of the expression that it replaces. Comments mark what belongs to which mutant, for the compiler's errors:
//! `/*<7*/ … /*>*/` round an expression with mutants of which 7 is the first, `/*=7*/ … /*>*/` round what mutant 7 adds.

use std::collections::HashMap;
use std::ops::Range;

use proc_macro2::Span;
use syn::spanned::Spanned;
use syn::visit::{self, Visit};
use syn::{BinOp, Expr};

use crate::mutants::{Genre, Mutant, Place};

enum Piece {
    Text(String),
    Source(Range<usize>),
}

struct Rewrite {
    range: Range<usize>,
    pieces: Vec<Piece>,
}

/// A file with switches, and the mutants that it has.
pub struct Rewritten {
    /// The file's text.
    pub text: String,
    /// By their numbers.
    pub fitted: Vec<u32>,
    /// Those that could never compile: without the arm, the `match` would not cover all.
    pub unviable: Vec<u32>,
}

struct Rewriter<'a> {
    mutants: HashMap<(Genre, Place), Vec<&'a Mutant>>,
    rewrites: Vec<Rewrite>,
    fitted: Vec<u32>,
    unviable: Vec<u32>,
    /// How many constants, constant functions and the like we are in.
    constant: u32,
}

/// Puts `mutants` into a file's text.
pub fn rewrite<'a>(source: &str, mutants: impl Iterator<Item = &'a Mutant>) -> Rewritten {
    let file = syn::parse_file(source).expect("the file is Rust");
    let mut by_place: HashMap<_, Vec<_>> = HashMap::new();
    mutants.for_each(|mutant| by_place.entry((mutant.genre, mutant.at)).or_default().push(mutant));
    let mut rewriter =
        Rewriter { mutants: by_place, rewrites: Vec::new(), fitted: Vec::new(), unviable: Vec::new(), constant: 0 };
    rewriter.visit_file(&file);
    let Rewriter { mut rewrites, fitted, unviable, .. } = rewriter;
    // Stable: what holds another rewrite was found first.
    rewrites.sort_by_key(|rewrite| rewrite.range.start);
    Rewritten { text: render(source, &rewrites, 0..source.len()), fitted, unviable }
}

fn render(source: &str, rewrites: &[Rewrite], range: Range<usize>) -> String {
    let mut text = String::new();
    let mut at = range.start;
    for (index, Rewrite { range: inner, pieces }) in rewrites.iter().enumerate() {
        if inner.start < at || inner.end > range.end {
            continue;
        }
        text.push_str(&source[at..inner.start]);
        for piece in pieces {
            match piece {
                Piece::Text(piece) => text.push_str(piece),
                Piece::Source(inner) => text.push_str(&render(source, &rewrites[index + 1..], inner.clone())),
            }
        }
        at = inner.end;
    }
    text.push_str(&source[at..range.end]);
    text
}

fn is(mutant: &Mutant) -> String {
    format!("crate::mutant::is({})", mutant.id)
}

/// `if is(7) { … } else if is(8) { … } else { … }`
fn choice(mutants: &[&Mutant], with: impl Fn(&str) -> Vec<Piece>, original: Vec<Piece>) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for mutant in mutants {
        pieces.push(Piece::Text(format!("if {} {{ /*={}*/ ", is(mutant), mutant.id)));
        pieces.extend(with(&mutant.replacement));
        pieces.push(Piece::Text(" /*>*/ } else ".into()));
    }
    pieces.push(Piece::Text("{ ".into()));
    pieces.extend(original);
    pieces.push(Piece::Text(" }".into()));
    pieces
}

fn text(text: impl Into<String>) -> Vec<Piece> {
    vec![Piece::Text(text.into())]
}

fn source(of: &impl Spanned) -> Vec<Piece> {
    vec![Piece::Source(of.span().byte_range())]
}

fn is_assignment(op: &BinOp) -> bool {
    use BinOp::{
        AddAssign, BitAndAssign, BitOrAssign, BitXorAssign, DivAssign, MulAssign, RemAssign, ShlAssign, ShrAssign,
        SubAssign,
    };
    matches!(
        op,
        AddAssign(_)
            | SubAssign(_)
            | MulAssign(_)
            | DivAssign(_)
            | RemAssign(_)
            | BitAndAssign(_)
            | BitOrAssign(_)
            | BitXorAssign(_)
            | ShlAssign(_)
            | ShrAssign(_)
    )
}

fn is_comparison(op: &BinOp) -> bool {
    matches!(op, BinOp::Eq(_) | BinOp::Ne(_) | BinOp::Lt(_) | BinOp::Le(_) | BinOp::Gt(_) | BinOp::Ge(_))
}

/// Whether a condition binds names that what follows it uses.
fn has_let(condition: &Expr) -> bool {
    match condition {
        Expr::Let(_) => true,
        Expr::Binary(binary) => has_let(&binary.left) || has_let(&binary.right),
        _ => false,
    }
}

impl<'a> Rewriter<'a> {
    fn take(&mut self, genre: Genre, span: Span) -> Vec<&'a Mutant> {
        if self.constant > 0 {
            return Vec::new();
        }
        let start = span.start();
        let place = Place { line: start.line, column: start.column + 1 };
        self.mutants.remove(&(genre, place)).unwrap_or_default()
    }

    fn put(&mut self, range: Range<usize>, mutants: &[&Mutant], pieces: impl IntoIterator<Item = Vec<Piece>>) {
        self.fitted.extend(mutants.iter().map(|mutant| mutant.id));
        let mut all = text(format!("/*<{}*/", mutants[0].id));
        all.extend(pieces.into_iter().flatten());
        all.extend(text("/*>*/"));
        self.rewrites.push(Rewrite { range, pieces: all });
    }

    fn constant(&mut self, visit: impl FnOnce(&mut Self)) {
        self.constant += 1;
        visit(self);
        self.constant -= 1;
    }

    fn function(&mut self, signature: &syn::Signature, block: &syn::Block, visit: impl FnOnce(&mut Self)) {
        if signature.constness.is_some() {
            return self.constant(visit);
        }
        // What a function gives that only says what it can do must be of one type.
        let is_opaque = signature.output.span().source_text().is_some_and(|output| output.contains("impl "));
        if let (false, Some(first)) = (is_opaque, block.stmts.first()) {
            let start = first.span().byte_range().start;
            for mutant in self.take(Genre::FnValue, first.span()) {
                let Mutant { id, replacement, .. } = mutant;
                let early = format!("if {} {{ return /*={id}*/ {replacement} /*>*/; }} ", is(mutant));
                self.put(start..start, &[mutant], [text(early)]);
            }
        }
        visit(self);
    }

    fn binary(&mut self, binary: &syn::ExprBinary) {
        let op = &binary.op;
        if matches!(op, BinOp::And(_) | BinOp::Or(_)) && (has_let(&binary.left) || has_let(&binary.right)) {
            return;
        }
        let mutants = self.take(Genre::BinaryOperator, op.span());
        let Some(first) = mutants.first() else {
            return;
        };
        let range = binary.span().byte_range();
        let sign = op.span().source_text().unwrap_or_default();
        let (left, right) = (|| source(&binary.left), || source(&binary.right));
        if matches!(op, BinOp::And(_) | BinOp::Or(_)) {
            let is = is(first);
            let [joined, otherwise] = if matches!(op, BinOp::And(_)) {
                [format!(") ^ {is} {{ "), format!(" }} else {{ {is} }})")]
            } else {
                [format!(") == {is} {{ "), format!(" }} else {{ !{is} }})")]
            };
            self.put(range, &mutants, [text("(if ("), left(), text(joined), right(), text(otherwise)]);
        } else if is_assignment(op) {
            let assign = |sign: &str| [left(), text(format!(" {sign} mutant_r"))].into_iter().flatten().collect();
            let choice = choice(&mutants, assign, assign(&sign));
            self.put(range, &mutants, [text("match "), right(), text(" { mutant_r => "), choice, text(" }")]);
        } else {
            let (open, close, star) = if is_comparison(op) { ("&(", ")", "*") } else { ("", "", "") };
            let apply = |sign: &str| text(format!("{star}mutant_l {sign} {star}mutant_r"));
            let choice = choice(&mutants, apply, apply(&sign));
            let [start, middle] = [format!("(match ({open}"), format!("{close}, {open}")];
            let arm = format!("{close}) {{ (mutant_l, mutant_r) => ");
            self.put(range, &mutants, [text(start), left(), text(middle), right(), text(arm), choice, text(" })")]);
        }
    }
}

impl<'ast> Visit<'ast> for Rewriter<'_> {
    fn visit_item_const(&mut self, item: &'ast syn::ItemConst) {
        self.constant(|rewriter| visit::visit_item_const(rewriter, item));
    }

    fn visit_item_static(&mut self, item: &'ast syn::ItemStatic) {
        self.constant(|rewriter| visit::visit_item_static(rewriter, item));
    }

    fn visit_impl_item_const(&mut self, item: &'ast syn::ImplItemConst) {
        self.constant(|rewriter| visit::visit_impl_item_const(rewriter, item));
    }

    fn visit_expr_const(&mut self, expr: &'ast syn::ExprConst) {
        self.constant(|rewriter| visit::visit_expr_const(rewriter, expr));
    }

    fn visit_type(&mut self, _: &'ast syn::Type) {}

    fn visit_pat(&mut self, _: &'ast syn::Pat) {}

    fn visit_expr_repeat(&mut self, expr: &'ast syn::ExprRepeat) {
        self.visit_expr(&expr.expr);
    }

    fn visit_item_fn(&mut self, item: &'ast syn::ItemFn) {
        self.function(&item.sig, &item.block, |rewriter| visit::visit_item_fn(rewriter, item));
    }

    fn visit_impl_item_fn(&mut self, item: &'ast syn::ImplItemFn) {
        self.function(&item.sig, &item.block, |rewriter| visit::visit_impl_item_fn(rewriter, item));
    }

    fn visit_trait_item_fn(&mut self, item: &'ast syn::TraitItemFn) {
        if let Some(block) = &item.default {
            self.function(&item.sig, block, |rewriter| visit::visit_trait_item_fn(rewriter, item));
        }
    }

    fn visit_expr_binary(&mut self, binary: &'ast syn::ExprBinary) {
        self.binary(binary);
        visit::visit_expr_binary(self, binary);
    }

    fn visit_expr_unary(&mut self, unary: &'ast syn::ExprUnary) {
        let mutants = self.take(Genre::UnaryOperator, unary.op.span());
        if !mutants.is_empty() {
            let sign = unary.op.span().source_text().unwrap_or_default();
            let choice = choice(&mutants, |_| text("mutant_v"), text(format!("{sign}mutant_v")));
            let value = source(&unary.expr);
            let pieces = [text("(match ("), value, text(") { mutant_v => "), choice, text(" })")];
            self.put(unary.span().byte_range(), &mutants, pieces);
        }
        visit::visit_expr_unary(self, unary);
    }

    fn visit_expr_match(&mut self, expr: &'ast syn::ExprMatch) {
        if !expr.arms.iter().any(|arm| matches!(arm.pat, syn::Pat::Wild(_)) && arm.guard.is_none()) {
            for arm in &expr.arms {
                let deleted = self.take(Genre::MatchArm, arm.span());
                self.unviable.extend(deleted.iter().map(|mutant| mutant.id));
            }
        }
        visit::visit_expr_match(self, expr);
    }

    fn visit_arm(&mut self, arm: &'ast syn::Arm) {
        let deleted = self.take(Genre::MatchArm, arm.span());
        if let Some(mutant) = deleted.first() {
            let arrow = arm.fat_arrow_token.span().byte_range().start;
            self.put(arrow..arrow, &deleted, [text(format!("if !{} ", is(mutant)))]);
        }
        if let Some((_, guard)) = &arm.guard {
            let mutants = self.take(Genre::MatchArmGuard, guard.span());
            if !mutants.is_empty() {
                let choice = choice(&mutants, |replacement| text(replacement), source(guard));
                self.put(guard.span().byte_range(), &mutants, [text("("), choice, text(")")]);
            }
        }
        visit::visit_arm(self, arm);
    }

    fn visit_expr_struct(&mut self, expr: &'ast syn::ExprStruct) {
        for field in &expr.fields {
            let mutants = self.take(Genre::StructField, field.span());
            if let (false, Some(rest)) = (mutants.is_empty(), &expr.rest) {
                let (path, name) = (expr.path.span().source_text(), field.member.span().source_text());
                let (path, name) = (path.unwrap_or_default(), name.unwrap_or_default());
                let from_rest = |_: &str| {
                    let [open, close] = [format!("({path} {{ .."), format!(" }}).{name}")];
                    [text(open), source(rest), text(close)].into_iter().flatten().collect()
                };
                let choice = choice(&mutants, from_rest, source(&field.expr));
                self.put(field.span().byte_range(), &mutants, [text(format!("{name}: ")), choice]);
            }
            self.visit_expr(&field.expr);
        }
        if let Some(rest) = &expr.rest {
            self.visit_expr(rest);
        }
    }
}
